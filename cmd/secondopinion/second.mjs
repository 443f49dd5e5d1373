// Answers planning problems with a general solver. Usage:
//   node second.mjs DIST SOLVER < questions
// DIST is the dist folder of the package minizinc. Every line of the input is a question, {id, model,
// values, seconds, plan}: seconds are of the processor, and plan holds the nine parts of what a plan is
// worth, null for none. Every line of the output is its answer, {id, status, parts, text, last, spent}:
// "best" with all nine parts of the best plan's worth proved, "open" with the first ones (all up to one
// in which the given plan is not best, or all that were proved in time), "none" when nothing is allowed
// at all, "fault" with what went wrong. last is the solver's own plan, spent the processor seconds taken.
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
const [dist, solver] = process.argv.slice(-2);
const code = await WebAssembly.compile(readFileSync(join(dist, 'minizinc.wasm')));

// now counts the processor time of all threads, in milliseconds: what is answered in time does not
// depend on what else the machine does.
const now = () => { const u = process.cpuUsage(); return (u.user + u.system) / 1e3; };

// run gives the messages of one run, or null when the time was up. Every run has a worker
// of its own: a solver leaves things behind that the next one stumbles over.
async function run(files, args, until, outputFiles) {
  if (now() >= until) return null;
  const worker = new Worker(inside, { eval: true, execArgv: [], workerData: { dist, code } });
  const heard = [];
  let timer = null;
  const result = await new Promise((done) => {
    timer = setInterval(() => now() >= until && done(null), 50);
    worker.on('error', (e) => done([{ type: 'error', message: String(e) }]));
    worker.on('message', (m) => {
      if (m.type === 'ready') worker.postMessage({ jsonStream: true, files, args, outputFiles });
      heard.push(m);
      if (m.type === 'exit') done(heard);
    });
    worker.postMessage({ wasmURL: join(dist, 'minizinc.wasm'), dataURL: join(dist, 'minizinc.data') });
  });
  clearInterval(timer);
  await worker.terminate();
  return result;
}

const fault = (heard) => heard.filter((m) => m.type === 'error' || m.type === 'stderr' || m.type === 'warning')
  .map((m) => m.message ?? m.value).join('; ');

// solve asks one thing of the model: kept are the values of the first parts, bounds and
// ask are lines of the model.
async function solve(q, kept, bounds, ask, until) {
  const keeps = [1, 2, 3, 4, 5, 6, 7, 8].map((i) => `keep${i} = ${kept[i - 1] ?? -1};`).join('\n');
  const files = { 'kitchen.mzn': `${q.model}\n${bounds}\n${ask}\n`, 'kitchen.dzn': `${q.values}${keeps}\n` };
  const heard = await run(files, ['--solver', solver, '-f', '--output-mode', 'json', 'kitchen.mzn', 'kitchen.dzn'], until);
  if (heard === null) return { status: 'late' };
  const found = heard.findLast((m) => m.type === 'solution');
  switch (heard.findLast((m) => m.type === 'status')?.status) {
    case 'UNSATISFIABLE': return { status: 'none' };
    case 'OPTIMAL_SOLUTION': case 'ALL_SOLUTIONS': return { status: 'found', last: found.output.json };
  }
  if (found && ask === 'solve satisfy;') return { status: 'found', last: found.output.json };
  throw new Error(fault(heard) || 'no word of how it ended');
}

// better says in the model that the parts come before those of a plan.
function better(plan) {
  const ways = plan.map((v, i) => [...plan.slice(0, i).map((w, j) => `part${j + 1} = ${w}`), `part${i + 1} ${i < 8 ? '<' : '>'} ${v}`]);
  return `constraint ${ways.map((way) => '(' + way.join(' /\\ ') + ')').join(' \\/ ')};`;
}

// answer first asks whether there is a plan as good as the given one, and whether there
// is a better one. Only then it goes from part to part, as far as the first in which the
// best plan differs from the given one.
async function answer(q) {
  const until = now() + q.seconds * 1000;
  let text = '';
  let best = null; // an answer that is known, for all the parts to come
  if (q.plan) {
    const as = await solve(q, q.plan.slice(0, 8), `constraint part9 = ${q.plan[8]};`, 'solve satisfy;', until);
    if (as.status === 'late') return { status: 'open', parts: [], text: 'no plan as good was found in time' };
    if (as.status === 'none') text = 'no plan has the score of the given one';
    if (as.status === 'found') {
      best = as.last;
      const more = await solve(q, [], better(q.plan), 'solve satisfy;', now() + (until - now()) / 2);
      if (more.status === 'none') return { status: 'best', parts: q.plan, last: best };
      if (more.status === 'found') best = more.last;
    }
  }
  const parts = [];
  for (let k = 1; k <= 9; k++) {
    // A known answer that has nothing left to win in this part is the best in it too, and without
    // batches there are neither litres nor makes.
    if (best !== null && k < 9 && best['part' + k] === 0 || (k === 7 || k === 9) && parts[4] === 0) {
      parts.push(0);
    } else {
      const reached = best === null ? '' : `constraint part${k} ${k < 9 ? '<=' : '>='} ${best['part' + k]};`;
      const found = await solve(q, parts, reached, k < 9 ? `solve minimize part${k};` : 'solve maximize part9;', until);
      if (found.status === 'late') return { status: 'open', parts, text, last: best };
      if (found.status === 'none') return { status: 'none', parts, text };
      best = found.last;
      parts.push(best['part' + k]);
    }
    if (q.plan && text === '' && parts[k - 1] !== q.plan[k - 1]) return { status: 'open', parts, text, last: best };
  }
  return { status: 'best', parts, text, last: best };
}

for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim() === '') continue;
  const q = JSON.parse(line);
  let a;
  const before = process.cpuUsage();
  try {
    a = await answer(q);
  } catch (e) {
    a = { status: 'fault', parts: [], text: String(e?.stack ?? e) };
  }
  const used = process.cpuUsage(before); // all threads
  process.stdout.write(JSON.stringify({ id: q.id, ...a, spent: (used.user + used.system) / 1e6 }) + '\n');
}
