"""What every caller needs: a channel, the key on every call, chunked upload, and errors by their reason."""

import hashlib
import pathlib
import sys

import grpc
from google.rpc import error_details_pb2, status_pb2

from coatscan.v1 import photo_service_pb2, photo_service_pb2_grpc

CHUNK_BYTES = 64 * 1024
PHOTO_DEADLINE_S = 30
UPLOAD_DEADLINE_S = 150


class Service:
    """A channel, and the metadata that carries the key."""

    def __init__(self, address, key_file=None):
        # In clear text, so for a service on this machine only: take secure_channel for any other.
        self.channel = grpc.insecure_channel(address)
        self.metadata = ()
        if key_file:
            key = pathlib.Path(key_file).read_text(encoding="ascii").strip()
            self.metadata = (("authorization", f"Bearer {key}"),)

    def upload(self, path):
        """Sends one photo in chunks; equal bytes give the same photo, so sending again does no harm."""
        content = pathlib.Path(path).read_bytes()
        photos = photo_service_pb2_grpc.PhotoServiceStub(self.channel)
        return photos.UploadPhoto(
            _messages(content, pathlib.Path(path).name), timeout=UPLOAD_DEADLINE_S, metadata=self.metadata)


def _messages(content, name):
    metadata = photo_service_pb2.PhotoMetadata(
        sha256=hashlib.sha256(content).hexdigest(), size_bytes=len(content), display_name=name)
    yield photo_service_pb2.UploadPhotoRequest(metadata=metadata)
    for start in range(0, len(content), CHUNK_BYTES):
        yield photo_service_pb2.UploadPhotoRequest(chunk=content[start:start + CHUNK_BYTES])


def say(error):
    """One line for a refused call: code, reason, field, message."""
    reason, field = "", ""
    for key, value in error.trailing_metadata() or ():
        if key == "grpc-status-details-bin":
            for detail in status_pb2.Status.FromString(value).details:
                info, request = error_details_pb2.ErrorInfo(), error_details_pb2.BadRequest()
                if detail.Unpack(info):
                    reason = info.reason
                elif detail.Unpack(request):
                    field = request.field_violations[0].field
    return f"{error.code().name} {reason} {field}: {error.details()}"


def run(main):
    """Runs a program; a refused call ends it with 1."""
    try:
        main()
    except grpc.RpcError as error:
        print(say(error), file=sys.stderr)
        sys.exit(1)
