// Answers requests, one JSON object a line, with the solver of the package
// "minizinc" compiled to WASM:
//
//   node drive.mjs FOLDER        FOLDER is the package's dist folder
//   in   {"model": text, "data": text, "args": [...]}
//   out  for each request one
//        {"status": text, "found": [objective, ...], "statistics": {...},
//        "seconds": n, "error": text}
//
// The package's worker is made for browsers; it needs only the two ways that a
// browser has of passing messages. It solves once: each request gets a new one,
// with the same compiled code, so that only the first request pays for compiling.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { Script } from 'node:vm';

const dist = process.argv.at(-1);
const at = name => join(dist, name);
const say = answer => process.stdout.write(JSON.stringify(answer) + '\n');
const worker = new Script(readFileSync(at('minizinc-worker.js'), 'utf8'), { filename: at('minizinc-worker.js') });

let compiled = null;
const instantiate = WebAssembly.instantiate;
WebAssembly.instantiate = async (bytes, imports) => {
  compiled ??= await WebAssembly.compile(bytes);
  return { module: compiled, instance: await instantiate(compiled, imports) };
};
WebAssembly.instantiateStreaming = undefined;

// The solver's clock is the processor time of this process, as the kernel's is.
const spent = () => { const u = process.cpuUsage(); return (u.user + u.system) / 1000; };
Object.defineProperty(globalThis.performance, 'now', { value: spent });

let handler = null; // the worker's
let turn = null; // the request in hand, and when it began
let one = null; // the answer that is being put together
let began = 0;

globalThis.require = createRequire(at('minizinc-worker.js'));
globalThis.__dirname = dist;
globalThis.__filename = at('minizinc-worker.js');
globalThis.addEventListener = (_, h) => { handler = h; };
globalThis.postMessage = m => {
  switch (m.type) {
  case 'ready': // said once more after the answer
    if (one) break;
    if (turn) solve(turn);
    break;
  case 'solution':
    one.found.push(Number(m.output.default));
    break;
  case 'status':
    one.status = m.status;
    break;
  case 'statistics':
    Object.assign(one.statistics, m.statistics);
    break;
  case 'error':
    one.error = JSON.stringify(m);
    break;
  case 'exit':
    if (m.code !== 0 && !one.error) one.error = 'exit code ' + m.code + ' ' + (m.message || '');
    one.seconds = (spent() - began) / 1000;
    say(one);
    turn = one = null;
  }
};

function solve(r) {
  one = { status: '', found: [], statistics: {}, error: '' };
  began = spent();
  handler({ data: { files: { 'model.mzn': r.model, 'data.dzn': r.data }, args: [...r.args, 'model.mzn', 'data.dzn'], jsonStream: true } });
}

createInterface({ input: process.stdin }).on('line', line => {
  turn = JSON.parse(line);
  worker.runInThisContext();
  handler({ data: { wasmURL: at('minizinc.wasm'), dataURL: at('minizinc.data') } });
});
