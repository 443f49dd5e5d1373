// What is said waits here, on the phone, until the kitchen's server has answered: it is kept before it is
// sent, sent in the order in which it was said, and let go when the server has it. What the server refuses
// is kept until somebody has seen it. Knows nothing of pages.

const STORE = "said";

// asked makes a promise of a request of IndexedDB.
const asked = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

// finished waits until a transaction is on the disk.
const finished = (transaction) => new Promise((resolve, reject) => {
  transaction.oncomplete = () => resolve();
  transaction.onerror = transaction.onabort = () => reject(transaction.error);
});

export class Queue {
  // The queue of one address: two people may have theirs on one phone.
  constructor(address) {
    this.address = address;
    this.sending = undefined; // the run that is under way
  }

  async #open() {
    const request = indexedDB.open("ripeby", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: "id", autoIncrement: true });
    return asked(request);
  }

  async #within(mode, what) {
    const db = await this.#open();
    try {
      const transaction = db.transaction(STORE, mode, { durability: "strict" });
      const result = await what(transaction.objectStore(STORE));
      if (mode === "readwrite") await finished(transaction);
      return result;
    } finally {
      db.close();
    }
  }

  // keep puts something at the end; it is on the disk when this is done.
  keep(item) {
    return this.#within("readwrite", (store) => asked(store.add({ ...item, address: this.address })));
  }

  // all is what waits and what was refused, in order.
  async all() {
    const items = await this.#within("readonly", (store) => asked(store.getAll()));
    return items.filter((item) => item.address === this.address);
  }

  drop(id) {
    return this.#within("readwrite", (store) => asked(store.delete(id)));
  }

  #refuse(id, answer) {
    return this.#within("readwrite", async (store) => {
      const item = await asked(store.get(id));
      if (item) await asked(store.put({ ...item, refused: answer }));
    });
  }

  // send sends what waits, one after the other. post gives "written", "later" or { refused: text }; at the
  // first "later" it stops, and that one stays the first. One run at a time, over all windows where the
  // browser can tell; where it cannot, the server takes each only once. It tells how it ended: "done" when
  // nothing waits, "later", or "away" when there was no answer.
  send(post) {
    this.sending ??= (async () => {
      try {
        const run = () => this.#run(post);
        return navigator.locks ? await navigator.locks.request("ripeby " + this.address, run) : await run();
      } finally {
        this.sending = undefined;
      }
    })();
    return this.sending;
  }

  async #run(post) {
    for (;;) {
      const first = (await this.all()).find((item) => item.refused === undefined);
      if (!first) return "done";
      let came;
      try {
        came = await post(first);
      } catch {
        return "away"; // no network, or no answer within the time
      }
      if (came === "written") await this.drop(first.id);
      else if (came?.refused !== undefined) await this.#refuse(first.id, came.refused);
      else return "later";
    }
  }
}
