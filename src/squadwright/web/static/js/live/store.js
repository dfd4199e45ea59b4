// Everything noted on this device, kept by the browser at once and after it is closed.
// One database for all sessions; an event is written before the tap counts as noted.
const NAME = "squadwright-record";

export async function openStore(session) {
  const database = await opened();
  const device = await keptDevice(database);
  const events = (await all(database, "events")).filter((event) => event.session === session);
  const stored = new Set(
    (await all(database, "stored")).filter((row) => row.session === session).map((row) => row.id),
  );
  const upto = (await get(database, "upto", session))?.upto || 0;
  let number = Math.max(0, ...events.filter((e) => e.device === device).map((e) => e.number));

  return {
    device,
    events,
    upto,
    unsent: () => events.filter((event) => !stored.has(event.id)),
    // Something that happens now, on this device; it counts as noted once it is added.
    newEvent(kind, author, more = {}) {
      number += 1;
      return {
        id: `${device}-${randomName(8)}`,
        session,
        device,
        number,
        at: Date.now(),
        kind,
        author,
        athlete: "",
        round: 0,
        exercise: "",
        value: null,
        words: "",
        takes_back: "",
        ...more,
      };
    },
    async add(event) {
      await put(database, "events", event);
      if (!events.some((known) => known.id === event.id)) events.push(event);
    },
    async markStored(ids) {
      await putAll(database, "stored", ids.map((id) => ({ id, session })));
      ids.forEach((id) => stored.add(id));
    },
    async setUpto(value) {
      if (value <= this.upto) return;
      this.upto = value;
      await put(database, "upto", { session, upto: value });
    },
  };
}

// A name that nothing else has: of this device, of one event.
export function randomName(bytes) {
  return [...crypto.getRandomValues(new Uint8Array(bytes))]
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("");
}

async function keptDevice(database) {
  const kept = await get(database, "device", "this");
  if (kept) return kept.name;
  const name = randomName(9);
  await put(database, "device", { key: "this", name });
  return name;
}

function opened() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      const database = request.result;
      database.createObjectStore("events", { keyPath: "id" });
      database.createObjectStore("stored", { keyPath: "id" });
      database.createObjectStore("upto", { keyPath: "session" });
      database.createObjectStore("device", { keyPath: "key" });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function done(transaction) {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}

function put(database, store, value) {
  return putAll(database, store, [value]);
}

function putAll(database, store, values) {
  const transaction = database.transaction(store, "readwrite", { durability: "strict" });
  for (const value of values) transaction.objectStore(store).put(value);
  return done(transaction);
}

function answer(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function get(database, store, key) {
  return answer(database.transaction(store).objectStore(store).get(key));
}

function all(database, store) {
  return answer(database.transaction(store).objectStore(store).getAll());
}
