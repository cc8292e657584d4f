// After one visit over http the picker works without a network, under any path; from a file there is no worker.
import assert from 'node:assert/strict';
import {fileUrl, openPage, serve} from './tools.mjs';

const settled = (page) => page.waitForFunction(() => document.querySelector('html[data-ready]') && !document.getElementById('results').hasAttribute('aria-busy'));

export default async function run({site, browser, test}) {
  for (const language of ['en', 'es']) {
    await test(`${language}: offline after the first visit`, async () => {
      const host = await serve(site), page = await openPage(browser);
      await page.goto(`${host.url}${language}/index.html`);
      await page.waitForSelector('html[data-ready]');
      assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.ready).scope), host.url, 'all of the site, nothing beside it');
      await page.goto(`${host.url}${language}/sources.html`);
      host.close();
      await page.context().setOffline(true);
      await page.goto(`${host.url}${language}/index.html#place=burdock_hollow&sun=full`);
      await settled(page);
      assert.ok(await page.locator('#short-list li').count() > 0, 'a place not looked at before is answered');
      await page.goto(`${host.url}${language}/sources.html`);
      assert.ok((await page.textContent('h1')).length > 0, 'a page read before is kept');
      assert.deepEqual(page.troubles.filter((text) => !/ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED/.test(text)), []);
      await page.context().close();
    });
  }
  await test('no worker from a file', async () => {
    const page = await openPage(browser);
    await page.goto(fileUrl(site, 'en/index.html'));
    await page.waitForSelector('html[data-ready]');
    assert.deepEqual(page.troubles, []);
    await page.context().close();
  });
}
