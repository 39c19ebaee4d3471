// Other shop software: one photo in, codes out, as one JSON object.
'use strict';

const { run } = require('./service');

run('shop-app.js ADDRESS PHOTO', async (service, file) => {
  const photo = await service.upload(file);
  const finding = await service.call(service.findings, 'AnalyzePhoto', { photo: { photo: photo.name } });
  console.log(JSON.stringify({
    finding: finding.name,
    verdict: finding.verdict,
    conditions: finding.conditions.slice(0, 3).map((one) => ({ condition: one.condition, probability: one.probability })),
    nextTest: finding.nextTests[0]?.test ?? null,
    issues: finding.photos[0].issues.map((issue) => issue.code),
  }));
});
