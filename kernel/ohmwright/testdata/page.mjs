// Opens a report in headless Chromium from its file, with the network off, and
// prints what a reader should not meet: a message of the console, a request, a
// serious finding of axe-core, light or dark, a page wider than a narrow window or
// than a sheet of paper, for which Chromium would print all of it smaller.
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

// Between the margins of 16 mm, at 96/25.4 pixels a millimetre: what stands on end
// fits into the narrower sheet, what is turned into a turned one.
await page.emulateMedia({ media: 'print' });
for (const [name, w, turned] of [['A4', 210, false], ['Letter', 215.9, false], ['A4 on its side', 297, true], ['Letter on its side', 279.4, true]]) {
  const px = Math.floor((w - 32) * 96 / 25.4);
  await page.setViewportSize({ width: px, height: 900 });
  const wide = await page.evaluate(([px, turned]) => {
    for (const e of document.querySelectorAll('.turned')) e.hidden = !turned;
    const over = [...document.querySelectorAll('body *')].find(e => e.getBoundingClientRect().right > px + 1);
    return over && `${over.tagName} in ${over.closest('[id]')?.id}: ${over.textContent.slice(0, 80)}`;
  }, [px, turned]);
  if (wide) console.log(`wider than a sheet of ${name}: ${wide}`);
}
await browser.close();
