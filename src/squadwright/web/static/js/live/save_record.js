// Everything noted on this device and known to it, as a file: for the day there is no network at
// all, or another telephone. The page of devices reads it in again; reading it twice adds nothing.
export function saveRecord(session, store) {
  const record = {
    format_version: 1,
    session,
    device: store.device,
    events: store.events.map((event) => ({ ...event, at: new Date(event.at).toISOString() })),
  };
  const file = new Blob([JSON.stringify(record, null, 1)], { type: "application/json" });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `record-${session}-${store.device.slice(0, 6)}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
