"""Claim photos of one panel: what it is, why, who answers, what was seen before, what to ask."""

import argparse

from coatscan.v1 import finding_service_pb2, finding_service_pb2_grpc
from service import PHOTO_DEADLINE_S, Service, run


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("address", help="gRPC port, for example 127.0.0.1:8081")
    arguments.add_argument("photos", nargs="+", help="1 to 12 photos of the same panel")
    arguments.add_argument("--claim", default="", help="your reference of the claim")
    arguments.add_argument("--panel", default="", help="your name of the panel")
    arguments.add_argument("--evidence", nargs="*", default=[], help="what is known beside the photos, as ids")
    arguments.add_argument("--key-file", help="file with the API key")
    given = arguments.parse_args()

    service = Service(given.address, given.key_file)
    stored = [service.upload(path) for path in given.photos]
    findings = finding_service_pb2_grpc.FindingServiceStub(service.channel)
    finding = findings.AnalyzePanel(
        finding_service_pb2.AnalyzePanelRequest(
            photos=[finding_service_pb2.PhotoInput(photo=photo.name) for photo in stored],
            facts=finding_service_pb2.PanelFacts(
                external_ref=given.claim, panel=given.panel, evidence=given.evidence)),
        timeout=PHOTO_DEADLINE_S, metadata=service.metadata)

    print(f"{finding.name} {finding.external_ref}".strip())
    for reason in finding.verdict_reasons:
        print(f"  {reason}")
    for cause in finding.causes[:3]:
        print(f"  cause {cause.cause}: {cause.probability:.0%}, answered for by {cause.party}")
    for photo in finding.photos:
        for earlier in photo.seen_before:
            same = "same bytes" if earlier.same_bytes else f"{earlier.distance_bits} bits apart"
            print(f"  picture {photo.sha256[:12]} came before in {earlier.finding} ({same})")
    for question in finding.claim.questions[:3]:
        print(f"  ask: {question}")


run(main)
