// Brings what this device noted to the server and takes what others noted. Sending again changes
// nothing there, so whatever gets no answer is sent again.
const USUAL_MS = 2000;
const LONGEST_MS = 30000;
const PATIENCE_MS = 8000;
const MOST_AT_ONCE = 200;

// How it stands between this device and the server, in words.
export function wordsOf({ isReached, refused }, waiting) {
  if (refused) return `The server refused something: ${refused}`;
  if (isReached) return waiting ? `Sending ${waiting}` : "Everything noted is stored";
  return waiting
    ? `No server: ${waiting} noted here, sent when it is back`
    : "No server: everything is kept here";
}

export function keepInStep({ path, page, token, store, onNews, onState }) {
  let wait = USUAL_MS;
  let timer = 0;
  let current = token;
  let isBusy = false;
  let isWanted = false;

  async function once() {
    if (isBusy) {
      isWanted = true;
      return;
    }
    isBusy = true;
    isWanted = false;
    clearTimeout(timer);
    try {
      const unsent = store.unsent().slice(0, MOST_AT_ONCE);
      const answer = await ask(unsent);
      await store.markStored(answer.stored);
      let news = 0;
      for (const event of answer.events) {
        if (!store.events.some((known) => known.id === event.id)) news += 1;
        await store.add({ ...event, at: Date.parse(event.at) });
      }
      await store.markStored(answer.events.map((event) => event.id));
      await store.setUpto(answer.upto);
      wait = USUAL_MS;
      onState({ isReached: true, waiting: store.unsent().length, revision: answer.revision });
      if (news) onNews();
      if (store.unsent().length) isWanted = true;
    } catch (error) {
      wait = Math.min(LONGEST_MS, wait * 1.7);
      onState({ isReached: false, waiting: store.unsent().length, refused: error.refused });
    } finally {
      isBusy = false;
      timer = setTimeout(once, isWanted ? 0 : wait);
    }
  }

  async function ask(unsent) {
    const body = JSON.stringify({
      after: store.upto,
      device: store.device,
      events: unsent.map((event) => ({ ...event, at: new Date(event.at).toISOString() })),
    });
    let answer = await send(body);
    if (answer.status === 403) {
      current = await freshToken();
      answer = await send(body);
    }
    if (!answer.ok) {
      const error = new Error(`the server said ${answer.status}`);
      error.refused = answer.status < 500 ? (await answer.json().catch(() => null))?.error : "";
      throw error;
    }
    return answer.json();
  }

  function send(body) {
    return fetch(path, {
      method: "POST",
      body,
      credentials: "same-origin",
      signal: AbortSignal.timeout(PATIENCE_MS),
      headers: { "Content-Type": "application/json", "X-CSRF-Token": current },
    });
  }

  // A page kept for flight mode may carry the token of a browser that was closed since.
  async function freshToken() {
    const answer = await fetch(page, { cache: "no-store" });
    const read = new DOMParser().parseFromString(await answer.text(), "text/html");
    return read.querySelector("input[name=_token]").value;
  }

  addEventListener("online", once);
  document.addEventListener("visibilitychange", () => document.hidden || once());
  once();
  return { now: once };
}
