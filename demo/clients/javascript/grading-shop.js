// A folder with one subfolder a vehicle, each photo a panel: one batch, watched to its end, worst vehicle first.
'use strict';

const crypto = require('node:crypto');
const fs = require('node:fs');
const path = require('node:path');
const { run } = require('./service');

const MAX_ITEMS_AT_ONCE = 1000;
const FOLDER = fs.constants.S_IFDIR;

const entries = (folder, kind) =>
  fs.readdirSync(folder).sort().filter((name) => (fs.statSync(path.join(folder, name)).mode & fs.constants.S_IFMT) === kind);

async function items(service, lots) {
  const all = [];
  for (const vehicle of entries(lots, FOLDER)) {
    for (const file of entries(path.join(lots, vehicle), fs.constants.S_IFREG)) {
      const photo = await service.upload(path.join(lots, vehicle, file));
      all.push({ key: `item-${all.length}`, vehicleRef: vehicle, panel: path.parse(file).name, photos: [photo.name] });
    }
  }
  return all;
}

function watch(service, name) {
  return new Promise((resolve, reject) => {
    // A connection that is lost goes on where it was: with startSequence, the last sequence seen plus one.
    const events = service.batches.WatchBatch({ name }, service.metadata);
    events.on('data', ({ sequence, item, batch }) => {
      if (sequence > 0 && item) {
        console.log(`${batch.gradedCount + batch.failedCount} of ${batch.itemCount}: ${item.vehicleRef} ${item.panel} ${item.state}`);
      }
    });
    events.on('error', reject);
    events.on('end', resolve);
  });
}

run('grading-shop.js ADDRESS LOTS', async (service, lots) => {
  const all = await items(service, lots);
  const batch = await service.call(service.batches, 'CreateBatch', {
    batch: { displayName: path.basename(lots) },
    requestId: crypto.randomUUID(),
  });
  for (let start = 0; start < all.length; start += MAX_ITEMS_AT_ONCE) {
    await service.call(service.batches, 'AddBatchItems', {
      name: batch.name, items: all.slice(start, start + MAX_ITEMS_AT_ONCE),
    });
  }
  await service.call(service.batches, 'StartBatch', { name: batch.name });
  await watch(service, batch.name);
  const { vehicles } = await service.call(service.batches, 'ListBatchVehicles', { parent: batch.name });
  for (const vehicle of vehicles) {
    const worst = vehicle.panels[0];
    const what = worst.conditionDisplayName || worst.error?.message || 'nothing wrong shows';
    console.log(`${vehicle.vehicleRef}: ${worst.panel}: ${what}`);
  }
});
