// What every caller needs: clients from the contract, the key on every call, chunked upload, and errors by their reason.
'use strict';

const crypto = require('node:crypto');
const fs = require('node:fs');
const path = require('node:path');
const grpc = require('@grpc/grpc-js');
const loader = require('@grpc/proto-loader');

const CHUNK_BYTES = 64 * 1024;
const PHOTO_DEADLINE_MS = 30_000;
const UPLOAD_DEADLINE_MS = 150_000;

const definition = loader.loadSync(
  ['finding', 'photo', 'batch'].map((name) => `coatscan/v1/${name}_service.proto`).concat('google/rpc/error_details.proto'),
  {
    includeDirs: [path.join(__dirname, '..', '..', '..', 'proto'), process.env.GOOGLE_PROTOS ?? ''],
    longs: Number,
    enums: String,
    defaults: true,
  },
);
const api = grpc.loadPackageDefinition(definition).coatscan.v1;
const decode = (type, bytes) => definition[type].deserialize(bytes);

class Service {
  constructor(address, keyFile) {
    // In clear text, so for a service on this machine only: take createSsl() for any other.
    const plain = grpc.credentials.createInsecure();
    this.findings = new api.FindingService(address, plain);
    this.photos = new api.PhotoService(address, plain);
    this.batches = new api.BatchService(address, plain);
    this.metadata = new grpc.Metadata();
    if (keyFile) {
      this.metadata.set('authorization', `Bearer ${fs.readFileSync(keyFile, 'ascii').trim()}`);
    }
  }

  /** Calls a unary method and gives its answer. */
  call(client, method, request, deadlineMs = PHOTO_DEADLINE_MS) {
    return new Promise((resolve, reject) => {
      client[method](request, this.metadata, { deadline: Date.now() + deadlineMs }, (error, answer) =>
        error ? reject(error) : resolve(answer));
    });
  }

  /** Sends one photo in chunks; equal bytes give the same photo, so sending again does no harm. */
  upload(file) {
    const content = fs.readFileSync(file);
    return new Promise((resolve, reject) => {
      const call = this.photos.UploadPhoto(this.metadata, { deadline: Date.now() + UPLOAD_DEADLINE_MS }, (error, photo) =>
        error ? reject(error) : resolve(photo));
      call.write({
        metadata: {
          sha256: crypto.createHash('sha256').update(content).digest('hex'),
          sizeBytes: content.length,
          displayName: path.basename(file),
        },
      });
      for (let start = 0; start < content.length; start += CHUNK_BYTES) {
        call.write({ chunk: content.subarray(start, start + CHUNK_BYTES) });
      }
      call.end();
    });
  }
}

/** One line for a refused call: code, reason, field, message. */
function say(error) {
  let reason = '';
  let field = '';
  for (const bytes of error.metadata?.get('grpc-status-details-bin') ?? []) {
    for (const detail of decode('google.rpc.Status', bytes).details) {
      if (detail.type_url.endsWith('/google.rpc.ErrorInfo')) {
        reason = decode('google.rpc.ErrorInfo', detail.value).reason;
      } else if (detail.type_url.endsWith('/google.rpc.BadRequest')) {
        field = decode('google.rpc.BadRequest', detail.value).fieldViolations[0].field;
      }
    }
  }
  return `${grpc.status[error.code] ?? error.name} ${reason} ${field}: ${error.details ?? error.message}`;
}

/** Runs a program with its arguments; a refused call ends it with 1. */
function run(usage, main) {
  const given = process.argv.slice(2);
  const at = given.indexOf('--key-file');
  const keyFile = at >= 0 ? given.splice(at, 2)[1] : undefined;
  if (given.length < 2) {
    console.error(`usage: ${usage} [--key-file FILE]`);
    process.exit(2);
  }
  main(new Service(given[0], keyFile), ...given.slice(1)).then(
    () => process.exit(0),
    (error) => {
      console.error(say(error));
      process.exit(1);
    },
  );
}

module.exports = { run };
