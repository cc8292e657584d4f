// The engine: the same one that made the other pages and the handouts, compiled for the browser.

// The engine asks nothing of the system; a C++ library still imports these names.
const nothing = new Proxy({}, {get: () => () => 0, has: () => true});
export const beside = document.currentScript.src;  // the winters' files lie beside this one

// Engine and data stand in their scripts as base64 of gzip, so that they are small on any host and load from file://.
function unpack(base64) {
  const packed = Uint8Array.from(atob(base64), (one) => one.charCodeAt(0));
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip')));
}

function fetchScript(name) {
  return new Promise((done, failed) => {
    const script = document.createElement('script');
    script.onload = done;
    script.onerror = () => failed(new Error(name));
    script.src = new URL(name, beside);
    document.head.append(script);
  });
}

// Resolves to a running engine: knows(place), learn(place) which fetches the winters of a place, call(name, request)
// which asks it, and drawing(name, ...numbers), as SVG. `more` is the text that it wants beside the catalogue and the office.
export async function startModule(engine, data, more) {
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
  const told = (at) => decoder.decode(new Uint8Array(exported.memory.buffer, at, exported.tw_size()));
  return {
    knows: (place) => known.has(place),
    async learn({id, winters}) {
      await fetchScript(winters);
      office.places.find((place) => place.id === id).winters = await unpack(window.tenwintersWinters[id]).json();
      const given = [catalog, JSON.stringify(office), ...more].flatMap(put);
      if (exported.tw_load(...given) !== 1) throw new Error('catalogue not understood');
      known.add(id);
    },
    call(name, request) { return JSON.parse(told(exported[name](...put(JSON.stringify(request))))); },
    drawing(name, ...numbers) { return told(exported[name](...numbers)); },
  };
}
