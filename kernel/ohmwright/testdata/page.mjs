// Opens a report in headless Chromium from its file, with the network off, and
// prints what a reader should not meet: a message of the console, a request, a
// serious finding of axe-core, light or dark, a page wider than a narrow window.
//
//   OHMWRIGHT_FRONTEND=FOLDER page.mjs FILE.html
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import path from 'node:path';

const require = createRequire(path.join(process.env.OHMWRIGHT_FRONTEND, 'package.json'));
const { chromium } = require('playwright-core');
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
const page = await (await browser.newContext({ offline: true })).newPage();
const address = 'file://' + path.resolve(process.argv[2]);
page.on('console', m => console.log('console: ' + m.text()));
page.on('request', r => { if (r.url() !== address && !r.url().startsWith('data:')) console.log('request: ' + r.url()); });
await page.goto(address);
await page.evaluate(readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8'));
for (const colorScheme of ['light', 'dark']) {
  await page.emulateMedia({ colorScheme });
  for (const v of (await page.evaluate(() => axe.run())).violations)
    if (['serious', 'critical'].includes(v.impact)) console.log(`axe-core, ${colorScheme}: ${v.id}: ${v.nodes[0].html.slice(0, 150)}`);
}
await page.setViewportSize({ width: 400, height: 900 });
const width = await page.evaluate(() => document.documentElement.scrollWidth);
if (width > 400) console.log(`the page is ${width} wide in a window of 400`);
await browser.close();
