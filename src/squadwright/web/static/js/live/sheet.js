// The sheet a page runs from: the one it came with, a newer one that was kept on the device, or
// the one the server has after a change.
export function keepSheet({ element, path, onNew }) {
  let sheet = JSON.parse(element.textContent);
  let isAsking = false;

  async function take(isWanted) {
    if (isAsking) return;
    isAsking = true;
    try {
      const answer = await fetch(path, { cache: "no-store" });
      const found = answer.ok ? await answer.json() : null;
      if (found && isWanted(found)) {
        sheet = found;
        onNew();
      }
    } catch {
      // Without a server the page goes on with the sheet it has.
    } finally {
      isAsking = false;
    }
  }

  // In flight mode the page may be older than the sheet that was kept beside it.
  take((kept) => kept.number > sheet.number);

  return {
    get now() {
      return sheet;
    },
    follow(revision) {
      if (revision && revision !== sheet.revision) take((found) => found.revision !== sheet.revision);
    },
  };
}
