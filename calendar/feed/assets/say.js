// Has what is said on a writing page wait on the phone until the server has it (queue.js), and shows what
// waits and what was refused. Without this file the forms are sent as forms are, and so is what is only asked:
// an answer that comes much later is of no use.

import { Queue } from "./queue.js";

const PATIENCE = 15_000; // milliseconds for an answer
const AGAIN = 30_000; // milliseconds between tries

// Words that are said of a thing once; others, such as a note, may be said as often as one likes.
const ONCE = ["did", "began", "not_yet", "stands", "round", "skipped", "ordered", "came", "strike", "lost", "here", "open", "seen"];

// What a form is about, so that it is not taken for that of another job; "" for none.
export const about = (form) => form ? ["batch", "stage", "place", "shelf", "round", "milk", "day", "target", "cheese", "of", "anybody", "warning", "nr", "ask", "id"].map((name) => form.elements[name]?.value ?? "").join("|") : "";

const clock = (moment) => {
  const at = new Date(moment);
  const time = at.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  return at.toDateString() === new Date().toDateString() ? time : `${at.toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "short" })} ${time}`;
};

function element(name, text, attributes = {}) {
  const e = document.createElement(name);
  e.textContent = text;
  for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
  return e;
}

// post sends one thing. Only what says so itself is the kitchen's answer: a network that wants a password
// first answers too.
async function post(item) {
  const body = new URLSearchParams(item.fields);
  body.set("quiet", "1");
  body.set("waited", String(Math.max(0, Math.round((Date.now() - item.tapped) / 1000))));
  const answer = await fetch(item.action, { method: "POST", body, redirect: "manual", cache: "no-store", signal: AbortSignal.timeout(PATIENCE) });
  const came = answer.headers.get("Ripeby-Said");
  if (answer.status === 410) return { refused: "This address has been taken back. Ask in the kitchen for the new one." };
  if (came === "refused") return { refused: await answer.text() };
  if (came === "later") {
    const after = Number(answer.headers.get("Retry-After"));
    if (after > 0) setTimeout(() => dispatchEvent(new Event("ripeby-send")), after * 1000);
  }
  return came ?? "later";
}

// begin takes over the forms of a writing page. look brings the page up to date, offline says whether the
// server is out of reach.
export function begin(root, look, offline) {
  const box = document.getElementById("waiting");
  const queue = new Queue(root);
  const under = new Set(); // what was tapped here and is on its way to the disk
  let last = ""; // what the box shows, so that nothing is drawn anew under a finger

  // send sends what waits. Who asks while that is under way, however near its end, has it tried once more
  // after: what was tried without network may be on its way back when the network comes.
  let running;
  let more = false;
  function send(tapped) {
    more = true;
    running ??= (async () => {
      try {
        while (more) await round(tapped);
      } finally {
        running = undefined;
      }
    })();
    return running;
  }

  // round sends what waits until nothing does or it cannot be had, and shows how it stands.
  async function round(tapped) {
    let answered = false;
    let ended;
    do {
      more = false;
      ended = await queue.send(async (item) => {
        const came = await post(item);
        answered ||= came !== "later";
        return came;
      });
    } while (more || (ended === "done" && (await waiting()).length > 0));
    await show(tapped);
    if (ended === "away") offline(true);
    if (answered) look(); // not waited for: what is tapped meanwhile goes at once
  }

  const waiting = async () => (await queue.all()).filter((item) => item.refused === undefined);

  // show draws the box: a line for what waits, and each that was refused, with why and with its form.
  async function show(tapped) {
    const items = await queue.all();
    mark(items);
    const is = JSON.stringify(items.map((item) => [item.id, item.refused]));
    if (is === last) return;
    last = is;
    box.replaceChildren();
    box.hidden = items.length === 0;
    const waits = items.filter((item) => item.refused === undefined);
    if (waits.length > 0) {
      const details = document.createElement("details");
      details.append(element("summary", `${waits.length} ${waits.length === 1 ? "waits" : "wait"} to be sent`));
      const list = document.createElement("ul");
      list.className = "care";
      for (const item of waits) list.append(line(item, "Do not send"));
      details.append(list);
      box.append(details);
    }
    for (const item of items) if (item.refused !== undefined) box.append(refusal(item));
    const now = box.querySelector(`[data-id="${tapped}"]`);
    if (now) {
      now.scrollIntoView({ block: "nearest" });
      now.focus({ preventScroll: true });
    }
  }

  function line(item, text) {
    const li = document.createElement("li");
    const what = element("span", "");
    what.append(element("bdi", item.of), `, ${clock(item.tapped)}`);
    li.append(what, leave(item, text));
    return li;
  }

  // leave is the button that lets something go.
  function leave(item, text) {
    const button = element("button", text, { class: "button", type: "button" });
    button.append(element("span", `: ${item.of}`, { class: "unseen" }));
    button.addEventListener("click", async () => {
      await queue.drop(item.id);
      await show();
      await look();
    });
    return button;
  }

  // refusal shows what was refused: why, and the form to put it right, where the server gave one.
  function refusal(item) {
    const answer = new DOMParser().parseFromString(item.refused, "text/html");
    const why = answer.querySelector("main .mind");
    const section = element("section", "", { class: "refused", tabindex: "-1", "data-id": item.id, "aria-label": "Not written down" });
    section.append(element("p", ""));
    section.firstChild.append(element("strong", "Not written down:"), " ", element("bdi", item.of), `, ${clock(item.tapped)}`);
    for (const p of why ? [...why.querySelectorAll("p")].map((p) => p.textContent) : [answer.body.textContent.trim().slice(0, 300)]) {
      section.append(element("p", p));
    }
    const form = answer.querySelector("main form.say");
    if (form) {
      const copy = document.importNode(form, true);
      copy.dataset.instead = item.id;
      copy.dataset.tapped = item.tapped;
      copy.dataset.of = item.of;
      section.append(copy);
    }
    section.append(leave(item, "Leave it"));
    return section;
  }

  // mark shows at the forms of the page which of what they say waits.
  function mark(items) {
    for (const form of document.querySelectorAll("main form.say:not([data-plainly])")) {
      const mine = items.filter((item) => item.refused === undefined && item.about === about(form) && ONCE.includes(item.say));
      const within = form.closest(".more");
      let waits;
      for (const button of form.querySelectorAll("button")) {
        const of = mine.find((item) => item.say === button.value);
        button.disabled = Boolean(of) || (!within && mine.length > 0);
        waits ??= of;
      }
      const said = waits ? `Kept on this phone at ${clock(waits.tapped)}, to be sent` : "";
      const old = form.querySelector(".kept");
      if (old?.textContent === said) continue;
      old?.remove();
      if (said) form.append(element("p", said, { class: "kept" }));
    }
  }

  document.addEventListener("submit", async (event) => {
    const form = event.target;
    const button = event.submitter;
    if (!form.matches("form.say") || "plainly" in form.dataset || !new URL(form.action).pathname.endsWith("/say")) return;
    event.preventDefault();
    const fields = [...new FormData(form)].map(([name, value]) => [name, String(value)]);
    if (button?.name) fields.push([button.name, button.value]);
    const say = fields.find(([name]) => name === "say")?.[1] ?? "";
    const once = about(form) + "|" + say;
    if (ONCE.includes(say) && under.has(once)) return; // a second tap of the same
    under.add(once);
    const of = form.dataset.of ?? button?.textContent.trim() ?? "";
    const item = { action: form.action, fields, say, about: about(form), of, tapped: Number(form.dataset.tapped) || Date.now() };
    try {
      const id = await queue.keep(item);
      if (form.dataset.instead) await queue.drop(Number(form.dataset.instead));
      form.reset(); // nothing is being typed any more
      const more = form.closest(".more");
      if (more) more.open = false;
      mark(await queue.all());
      const slow = setTimeout(show, 400); // what is written at once is not shown as waiting
      await send(id);
      clearTimeout(slow);
      await show(id);
    } catch { // this browser keeps nothing: it is sent as without a script
      form.dataset.plainly = "yes";
      form.requestSubmit(button);
    } finally {
      under.delete(once);
    }
  });

  const again = () => { if (!document.hidden) send().catch(() => {}); };
  setInterval(again, AGAIN);
  addEventListener("online", again);
  addEventListener("ripeby-send", again);
  addEventListener("pageshow", again);
  document.addEventListener("visibilitychange", again);
  show().catch(() => {});
  again();
  return async () => mark(await queue.all()); // for a page that was brought up to date
}
