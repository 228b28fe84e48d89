#!/usr/bin/env node
// Opens a note in a real front end, in headless Chromium, and does with it what
// a designer does:
//
//   OHMWRIGHT_FRONTEND=FOLDER check.mjs classic|lab NOTE.ipynb PICTURES
//
// FOLDER is what "prepare" made; JUPYTER_PATH must lead to a kernelspec called
// ohmwright; scenarios.mjs has what is done with the note of that name. Pictures
// go into the folder PICTURES. Prints a line for each check; exit status 1 if one
// failed. Works on a copy of the note and ends what it started.
import { createRequire } from 'node:module';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fronts } from './fronts.mjs';
import { sleep, startServer } from './server.mjs';
import { scenarios } from './scenarios.mjs';

const [name, note, pictures] = process.argv.slice(2);
const front = fronts[name];
const scenario = note && scenarios[path.basename(note, '.ipynb')];
if (!front || !scenario || !pictures || !process.env.OHMWRIGHT_FRONTEND) {
  console.error('usage: OHMWRIGHT_FRONTEND=FOLDER check.mjs classic|lab NOTE.ipynb PICTURES');
  process.exit(2);
}
const { chromium } = createRequire(path.join(process.env.OHMWRIGHT_FRONTEND, 'package.json'))('playwright-core');

const work = mkdtempSync(path.join(os.tmpdir(), 'frontend-'));
const notes = path.join(work, 'notes');
mkdirSync(notes);
mkdirSync(pictures, { recursive: true });
const file = path.join(notes, 'note.ipynb');
// The copy has no outputs: what is seen, the kernel has computed.
const copy = JSON.parse(readFileSync(note, 'utf8'));
for (const c of copy.cells) if (c.cell_type === 'code') c.outputs = [];
writeFileSync(file, JSON.stringify(copy));

let failed = 0;
function report(ok, what, got) {
  if (!ok) failed++;
  console.log(ok ? `ok    ${what}` : `FAIL  ${what}; got: ${got}`);
}

/** What look gives, once good(it) or time is over. */
async function eventually(look, good, ms) {
  for (const end = Date.now() + ms; ;) {
    const got = await look();
    if (good(got) || Date.now() > end) return got;
    await sleep(30);
  }
}

/** The hands and eyes of a person before the page. */
function person(page) {
  const idle = async () => {
    await sleep(50); // the request is on its way, the page not yet busy
    await page.waitForFunction(front.idle, null, { polling: 30, timeout: 30000 });
  };
  const shown = i => page.locator(front.cells).nth(i).locator(front.outputs)
    .evaluate(e => e.innerText.replace(/[\u00a0\u202f\u2009\s]+/g, ' ').trim());
  return {
    name,
    start: i => front.start(page, i),
    async run(i) { await front.start(page, i); await idle(); },
    async runAll() {
      for (const [i, type] of (await front.types(page)).entries()) if (type === 'code') await this.run(i);
    },
    source: i => front.source(page, i),
    edit: (i, source) => front.edit(page, i, source),
    async append(source) { await front.insert(page, source); return (await front.types(page)).length - 1; },
    remove: i => front.remove(page, i),
    async interrupt() { await front.interrupt(page); const t = Date.now(); await idle(); return Date.now() - t; },
    async restart() { await front.restart(page); await page.waitForFunction(front.ready, null, { timeout: 30000 }); },
    async reload() { await open(page); },
    /** Checks that a cell shows text, and not another. */
    async sees(i, text, { not, what } = {}) {
      const good = s => s.includes(text) && !(not && s.includes(not));
      const got = await eventually(() => shown(i), good, 10000);
      report(good(got), `cell ${i} shows “${text}”${not ? `, no longer “${not}”` : ''}${what ? `: ${what}` : ''}`, got);
    },
    /** Saves, and checks that the file has text in what the cell showed. */
    async fileHas(i, text) {
      await front.save(page);
      const outputs = () => JSON.parse(readFileSync(file, 'utf8')).cells[i].outputs;
      const has = o => o.map(o => [o.data?.['text/plain'] ?? []].flat().join('')).join('\n').includes(text);
      const got = await eventually(outputs, has, 10000);
      report(has(got), `the file has “${text}” in cell ${i}`, JSON.stringify(got));
      report(!JSON.stringify(got).includes('transient'), `nothing transient in the file's cell ${i}`, JSON.stringify(got));
    },
    check: report,
    /** Takes a picture of the cells from one to another, whole. */
    async picture(called, from, to) {
      const box = async i => page.locator(front.cells).nth(i).boundingBox();
      await page.setViewportSize({ width: 1100, height: 5000 });
      await page.mouse.move(0, 0); // a row under the mouse is coloured
      await page.waitForFunction(outputs => // until formulas are typeset
        [...document.querySelectorAll(outputs)].every(e => !e.innerText.includes('\\(')), front.outputs);
      await sleep(500); // fonts
      // The front end may still be scrolling to the cell that ran last.
      const top = async () => {
        await page.locator(front.cells).nth(from).evaluate(e => e.scrollIntoView());
        return (await box(from)).y;
      };
      await eventually(top, y => y >= 0, 5000);
      const [a, b] = [await box(from), await box(to)];
      await page.screenshot({
        path: path.join(pictures, `${name}-${called}.png`),
        clip: { x: 0, y: a.y, width: 1100, height: b.y + b.height - a.y }
      });
      await page.setViewportSize({ width: 1100, height: 1400 });
    }
  };
}

let server, browser;
const said = [];
async function open(page) {
  await page.goto(server.base + front.address('note.ipynb', server.token));
  await page.waitForFunction(front.ready, null, { timeout: 60000 });
}
try {
  server = await startServer({ ...front, notes, work });
  browser = await chromium.launchPersistentContext(path.join(work, 'browser'), {
    executablePath: '/usr/bin/chromium', headless: true, viewport: { width: 1100, height: 1400 },
    // Without a sandbox: in a container, root has none. Nothing is loaded but the server's page.
    args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync']
  });
  const page = browser.pages()[0] ?? await browser.newPage();
  page.on('console', m => said.push(`${m.type()}: ${m.text()}`));
  page.on('pageerror', e => said.push('error: ' + e.message));
  page.on('dialog', d => d.accept());
  page.setDefaultTimeout(30000);
  await open(page);
  try {
    await scenario(person(page));
  } finally {
    if (failed) await page.screenshot({ path: path.join(pictures, `${name}-failure.png`) }).catch(() => {});
  }
} catch (e) {
  report(false, 'the scenario runs to its end', e.stack);
} finally {
  await browser?.close().catch(() => {});
  await server?.stop();
  rmSync(work, { recursive: true, force: true });
}
if (failed) console.log(said.slice(-15).join('\n'));
process.exit(failed ? 1 : 0);
