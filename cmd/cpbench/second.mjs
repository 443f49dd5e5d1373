// Answers planning problems part after part with a general solver. Usage:
//   node second.mjs DIR SOLVER < questions
// DIR holds node_modules/minizinc. Every line of the input is a question, {id, model,
// values, seconds}; every line of the output is its answer, {id, status, parts, text}:
// "best" with all six parts proved, "open" with those proved before the time was up,
// "none" when nothing is allowed at all, "fault" with what went wrong.
import { Worker } from 'node:worker_threads';
import { createInterface } from 'node:readline';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

// The package solves in a web worker. This gives it one: messages both ways, files
// instead of the network, and code that has been compiled already.
const inside = `
const { parentPort, workerData } = require('node:worker_threads');
const { readFileSync } = require('node:fs');
const script = workerData.dist + '/minizinc-worker.js';
Object.assign(globalThis, { require, __filename: script, __dirname: workerData.dist });
globalThis.addEventListener = (kind, hear) => { if (kind === 'message') parentPort.on('message', (data) => hear({ data })); };
globalThis.postMessage = (data) => parentPort.postMessage(data);
globalThis.fetch = async (path) => ({ ok: true, status: 200, headers: new Map(),
  arrayBuffer: async () => { const b = readFileSync(String(path)); return b.buffer.slice(b.byteOffset, b.byteOffset + b.byteLength); } });
const instantiate = WebAssembly.instantiate;
WebAssembly.instantiate = async (bytes, imports) => ({ module: workerData.code, instance: await instantiate(workerData.code, imports) });
WebAssembly.instantiateStreaming = WebAssembly.instantiate;
(0, eval)(readFileSync(script, 'utf8'));
`;
const dist = join(process.argv.at(-2), 'node_modules', 'minizinc', 'dist');
const solver = process.argv.at(-1);
const code = await WebAssembly.compile(readFileSync(join(dist, 'minizinc.wasm')));

// run gives the messages of one run, or null when the time was up. Every run has a worker
// of its own: a solver leaves things behind that the next one stumbles over.
async function run(files, args, until, outputFiles) {
  const left = until - Date.now();
  if (left <= 0) return null;
  const worker = new Worker(inside, { eval: true, execArgv: [], workerData: { dist, code } });
  const heard = [];
  let timer = null;
  const result = await new Promise((done) => {
    timer = setTimeout(() => done(null), left);
    worker.on('error', (e) => done([{ type: 'error', message: String(e) }]));
    worker.on('message', (m) => {
      if (m.type === 'ready') worker.postMessage({ jsonStream: true, files, args, outputFiles });
      heard.push(m);
      if (m.type === 'exit') done(heard);
    });
    worker.postMessage({ wasmURL: join(dist, 'minizinc.wasm'), dataURL: join(dist, 'minizinc.data') });
  });
  clearTimeout(timer);
  await worker.terminate();
  return result;
}

const fault = (heard) => heard.filter((m) => m.type === 'error' || m.type === 'stderr' || m.type === 'warning')
  .map((m) => m.message ?? m.value).join('; ');

async function answer(q) {
  const until = Date.now() + q.seconds * 1000;
  const parts = [];
  let last = null;
  for (let k = 1; k <= 6; k++) {
    if (q.capped && k === 3 && parts[0] + parts[1] > 0) return { status: 'open', parts };
    // A last answer that has nothing left to win in this part is the best in it too.
    if (last !== null && k < 6 && last['part' + k] === 0 || parts[2] === 0) {
      parts.push(0);
      continue;
    }
    const kept = [1, 2, 3, 4, 5].map((i) => `keep${i} = ${i < k ? parts[i - 1] : -1};`).join('\n');
    // The last answer is one for this part too: the next is as good at least.
    const reached = last === null ? '' : `constraint part${k} ${k < 6 ? '<=' : '>='} ${last['part' + k]};\n`;
    const ask = k < 6 ? `solve minimize part${k};` : 'solve maximize part6;';
    const files = { 'kitchen.mzn': q.model + '\n' + reached + ask + '\n', 'kitchen.dzn': q.values + kept + '\n' };
    const heard = await run(files, ['--solver', solver, '-f', '--output-mode', 'json', 'kitchen.mzn', 'kitchen.dzn'], until);
    if (heard === null) return { status: 'open', parts, last };
    const status = heard.findLast((m) => m.type === 'status')?.status;
    const found = heard.findLast((m) => m.type === 'solution');
    if (status === 'UNSATISFIABLE') return { status: 'none', parts, text: `part ${k}` };
    if (status !== 'OPTIMAL_SOLUTION' || !found) return { status: 'fault', parts, text: fault(heard) || `got status ${status}` };
    last = found.output.json;
    parts.push(last['part' + k]);
  }
  return { status: 'best', parts, last };
}

for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim() === '') continue;
  const q = JSON.parse(line);
  let a;
  try {
    a = await answer(q);
  } catch (e) {
    a = { status: 'fault', parts: [], text: String(e?.stack ?? e) };
  }
  process.stdout.write(JSON.stringify({ id: q.id, ...a }) + '\n');
}
