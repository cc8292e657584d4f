// The second engine: it says and draws all that a screen shows.
import {nothing, unpack, fetchScript} from './engine.js';

// Resolves to the engine: knows(place), learn(place) which fetches the winters of a place, and ask(request)
// for what a screen shows.
export async function startScreens(engine, data, seasons, words) {
  const [code, text] = await Promise.all([unpack(engine).arrayBuffer(), unpack(data).text()]);
  const module = await WebAssembly.compile(code), imports = {};
  for (const wanted of WebAssembly.Module.imports(module)) imports[wanted.module] = nothing;
  const exported = (await WebAssembly.instantiate(module, imports)).exports;
  exported._initialize();
  const encoder = new TextEncoder(), decoder = new TextDecoder();
  const put = (text) => {
    const bytes = encoder.encode(text), at = exported.tw_alloc(bytes.length);
    new Uint8Array(exported.memory.buffer, at, bytes.length).set(bytes);
    return [at, bytes.length];
  };
  const [catalog, officeText] = text.split('\n'), office = JSON.parse(officeText), known = new Set();
  return {
    knows: (place) => known.has(place),
    async learn({id, winters}) {
      await fetchScript(winters);
      office.places.find((place) => place.id === id).winters = await unpack(window.tenwintersWinters[id]).json();
      const given = [catalog, JSON.stringify(office), seasons, JSON.stringify(words)].flatMap(put);
      if (exported.tw_load(...given) !== 1) throw new Error('catalogue not understood');
      known.add(id);
    },
    ask(request) {
      const at = exported.tw_answer(...put(JSON.stringify(request)));
      return JSON.parse(decoder.decode(new Uint8Array(exported.memory.buffer, at, exported.tw_size())));
    },
  };
}
