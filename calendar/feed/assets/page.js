// Brings the page up to date by itself, and keeps the last one for when the kitchen
// has no network. Everything works without this file.

import { about, begin } from "./say.js";

const EVERY = 30_000; // milliseconds between looks
const root = document.body.dataset.root;

if (!location.pathname.endsWith("/say")) { // an answer to what was said stays until it is read
  const says = () => document.getElementById("offline");

  // The worker keeps the coming week; it is told to look whenever the page is, or has become another.
  const worker = "serviceWorker" in navigator
    ? navigator.serviceWorker.register(root + "worker.js", { scope: root }).then(() => navigator.serviceWorker.ready).catch(() => undefined) : undefined;
  const keep = async () => (await worker)?.active?.postMessage("keep");

  // sameIn finds what somebody is at in the page that comes: by its name, by where it
  // leads, or by its place among its kind.
  // A fold by its name, or by its place among all.
  const foldOf = (details, place) => details.dataset.fold ?? place;
  const formIn = (details) => about(details.querySelector("form"));

  function sameIn(main, old, at) {
    if (at === old) return main;
    if (!old.contains(at)) return undefined;
    if (at.form) {
      return [...main.querySelectorAll("form")].filter((f) => about(f) === about(at.form)).flatMap((f) => [...f.elements])
        .find((e) => e.type !== "hidden" && e.name === at.name && (e.type !== "submit" || e.value === at.value));
    }
    if (at.matches(".more summary")) {
      return [...main.querySelectorAll(".more")].find((d) => formIn(d) === formIn(at.parentElement))?.querySelector("summary");
    }
    if (at.id) return main.querySelector("#" + CSS.escape(at.id));
    const href = at.getAttribute("href");
    const kind = (within) => [...within.querySelectorAll(at.tagName)];
    return href ? kind(main).find((a) => a.getAttribute("href") === href) : kind(main)[kind(old).indexOf(at)];
  }

  // What is typed at or pointed to is not taken away: focus goes to the same thing
  // again, and what was unfolded stays so.
  function put(next) {
    const old = document.getElementById("main");
    const main = next.getElementById("main");
    const footer = next.querySelector("footer");
    if (!main || !footer) return;
    if (main.innerHTML !== old.innerHTML) {
      const same = sameIn(main, old, document.activeElement);
      const open = new Map([...old.querySelectorAll("details:not(.more)")].map((d, i) => [foldOf(d, i), d.open]));
      const unfolded = new Set([...old.querySelectorAll(".more[open]")].map(formIn));
      const scrolled = [...old.querySelectorAll(".scroll")].map((s) => s.scrollLeft);
      main.querySelectorAll("details:not(.more)").forEach((d, i) => { d.open = open.get(foldOf(d, i)) ?? d.open; });
      main.querySelectorAll(".more").forEach((d) => { d.open = unfolded.has(formIn(d)); });
      old.replaceWith(main);
      main.querySelectorAll(".scroll").forEach((s, i) => { s.scrollLeft = scrolled[i] || 0; });
      if (same) same.focus({ preventScroll: true });
      mark?.();
      keep();
    }
    document.querySelector("footer").replaceWith(footer);
    document.title = next.title;
  }

  // While a question is worked out the page looks often, and says how far it is to those who do not see
  // it: in an element that stays, since only what changes within one is read out.
  const SOON = 2000; // milliseconds
  let soon;
  function watchSoon() {
    clearTimeout(soon);
    const state = document.querySelector("main p[data-soon], main [data-told]")?.textContent ?? "";
    const told = document.getElementById("told");
    if (told && told.textContent !== state) told.textContent = state;
    if (document.querySelector("main [data-soon]")) soon = setTimeout(look, SOON);
  }

  // What somebody is typing is left alone.
  function typing() {
    return [...document.querySelectorAll("main input:not([type=hidden])")].some((i) => i === document.activeElement || i.value !== i.defaultValue)
      || [...document.querySelectorAll("main select")].some((s) => s === document.activeElement || s.selectedIndex !== Math.max(0, [...s.options].findIndex((o) => o.defaultSelected)));
  }

  // Several looks may be under way; an answer that a later one has overtaken is not shown.
  let asked = 0;
  let shown = 0;
  async function look() {
    clearTimeout(soon);
    if (document.hidden || typing() || String(getSelection())) {
      watchSoon();
      return;
    }
    const mine = ++asked;
    try {
      const answer = await fetch(location.href, { cache: "no-cache" });
      if (answer.status === 410) { // the address was taken back
        if (document.getElementById("waiting")?.hidden ?? true) location.reload();
        else tell("This address has been taken back, and what waits here cannot be sent any more. Ask in the kitchen for the new one, and say it there.");
        return;
      }
      if (!answer.ok && answer.status !== 404) throw new Error(String(answer.status)); // a batch can leave the plan
      const text = await answer.text();
      if (mine < shown) return;
      shown = mine;
      put(new DOMParser().parseFromString(text, "text/html"));
      offline(answer.headers.has("X-Kept"));
    } catch {
      offline(true);
    }
    watchSoon();
  }

  function offline(is) {
    const at = document.querySelector("footer time").textContent;
    tell(is ? `No connection to the kitchen's server. This page is as it was on ${at}.` : "");
  }

  function tell(text) {
    if (says().textContent !== text) says().textContent = text;
    says().classList.toggle("mind", text !== "");
  }

  // While the page is looked at the server tells it of changes. A page that nobody looks at does not
  // listen: a browser has few connections to a server, and the server tells only so many pages.
  let listening;
  function listen() {
    if (document.hidden) {
      listening?.close();
      listening = undefined;
    } else if (!listening && "EventSource" in window) {
      listening = new EventSource(root + "live");
      listening.onmessage = look;
      listening.onerror = () => {
        if (listening?.readyState === EventSource.CLOSED) listening = undefined; // it was refused; there are looks besides
      };
    }
  }

  // Paper has all that is folded; where a style sheet cannot say so it is unfolded.
  addEventListener("beforeprint", () => {
    if (!CSS.supports("selector(::details-content)")) document.querySelectorAll("main details:not(.more)").forEach((d) => { d.open = true; });
  });

  watchSoon();
  if ("kept" in document.body.dataset) offline(true); // as the service worker gave it
  const mark = document.getElementById("waiting") ? begin(root, look, offline) : undefined;
  keep();
  setInterval(look, EVERY);
  addEventListener("pageshow", (event) => { if (event.persisted) look(); }); // as it was when it was left
  addEventListener("online", look);
  document.addEventListener("visibilitychange", () => { listen(); look(); });
  addEventListener("pagehide", () => { listening?.close(); listening = undefined; });
  addEventListener("pageshow", listen);
}
