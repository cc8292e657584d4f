// What the tests share: the browser, the site's pages, a static host under a sub-path.
import assert from 'node:assert/strict';
import {createServer} from 'node:http';
import {readFile, readdir} from 'node:fs/promises';
import {extname, join, relative, resolve, sep} from 'node:path';
import {pathToFileURL} from 'node:url';
import {chromium} from 'playwright-core';

export async function openBrowser() {
  const args = ['--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];
  if (process.getuid?.() === 0) args.push('--no-sandbox');
  return chromium.launch({executablePath: process.env.TENWINTERS_BROWSER || '/usr/bin/chromium', args});
}

// Paths of all files below the site's folder, '/' separated, sorted.
export async function listFiles(site) {
  const entries = await readdir(site, {recursive: true, withFileTypes: true});
  return entries.filter((entry) => entry.isFile())
      .map((entry) => relative(site, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join('/')).sort();
}
export async function listPages(site) { return (await listFiles(site)).filter((path) => path.endsWith('.html')); }

// One page of each kind, for tests that need not see every cultivar.
export function onePageOfEach(pages) {
  const kinds = new Map();
  for (const page of pages) {
    const parts = page.split('/'), last = parts.at(-1);
    const kind = [...parts.slice(0, -1), parts.length > 2 && last !== 'index.html' ? '*' : last].join('/');
    if (!kinds.has(kind)) kinds.set(kind, page);
  }
  return [...kinds.values()];
}

// With path '' the folder itself, which ends in a slash.
export function fileUrl(site, path) { return pathToFileURL(path === '' ? join(resolve(site), sep) : join(resolve(site), path)).href; }

const types = {'.html': 'text/html; charset=utf-8', '.css': 'text/css', '.js': 'text/javascript', '.svg': 'image/svg+xml',
               '.woff2': 'font/woff2', '.xml': 'application/xml', '.txt': 'text/plain'};

// The site as a static host would serve it, under /some/where/. Requests for anything else are listed.
export async function serve(site) {
  const prefix = '/some/where/', strays = [];
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url, 'http://host').pathname);
    if (!path.startsWith(prefix)) {
      strays.push(path);
      response.writeHead(404).end();
      return;
    }
    const name = path.slice(prefix.length) + (path.endsWith('/') ? 'index.html' : '');
    try {
      const body = await readFile(join(site, name));
      response.writeHead(200, {'content-type': types[extname(name)] ?? 'application/octet-stream'}).end(body);
    } catch {
      strays.push(path);
      response.writeHead(404).end();
    }
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  return {url: `http://127.0.0.1:${server.address().port}${prefix}`, strays, close: () => server.close()};
}

// A page that records what went wrong in it and what it asked for.
export async function openPage(browser, options = {}) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.troubles = [];
  page.requests = [];
  page.on('console', (message) => { if (['error', 'warning'].includes(message.type())) page.troubles.push(message.text()); });
  page.on('pageerror', (error) => page.troubles.push(String(error)));
  // A request cut short by leaving the page is no trouble; one that the policy refuses is also on the console.
  page.on('requestfailed', (request) => request.failure()?.errorText === 'net::ERR_ABORTED' || page.troubles.push(`${request.url()}: ${request.failure()?.errorText}`));
  page.on('request', (request) => page.requests.push(request.url()));
  return page;
}

// Works through `items` with several pages at a time, each made by `open` and closed at the end.
export async function share(items, lanes, open, work) {
  const queue = [...items];
  await Promise.all(Array.from({length: lanes}, async () => {
    const page = await open();
    for (let item; (item = queue.shift()) !== undefined;) await work(page, item);
    await page.context().close();
  }));
}

export function assertQuiet(page, base) {
  assert.deepEqual(page.troubles, [], 'the console stays empty');
  const outside = page.requests.filter((url) => !url.startsWith(base) && !url.startsWith('data:'));
  assert.deepEqual(outside, [], `every request stays in ${base}`);
}
