// The engine: the same one that made the other pages and the handouts, compiled for the browser.

// The engine asks nothing of the system; a C++ library still imports these names.
const nothing = new Proxy({}, {get: () => () => 0, has: () => true});

function bytesOf(base64) {
  const text = atob(base64), bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) bytes[i] = text.charCodeAt(i);
  return bytes;
}

// Resolves to a function (place, answers) -> advice.
export async function startEngine(base64, catalog, office) {
  const module = await WebAssembly.compile(bytesOf(base64));
  const imports = {};
  for (const wanted of WebAssembly.Module.imports(module)) imports[wanted.module] = nothing;
  const exported = (await WebAssembly.instantiate(module, imports)).exports;
  exported._initialize();
  const encoder = new TextEncoder(), decoder = new TextDecoder();
  const put = (text) => {
    const bytes = encoder.encode(text), at = exported.tw_alloc(bytes.length);
    new Uint8Array(exported.memory.buffer, at, bytes.length).set(bytes);
    return [at, bytes.length];
  };
  const catalogText = put(catalog), officeText = put(office);
  if (exported.tw_load(...catalogText, ...officeText) !== 1) throw new Error('catalogue not understood');
  return (place, answers) => {
    const at = exported.tw_advise(...put(JSON.stringify({place, answers})));
    return JSON.parse(decoder.decode(new Uint8Array(exported.memory.buffer, at, exported.tw_size())));
  };
}
