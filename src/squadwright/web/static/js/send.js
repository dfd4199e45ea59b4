// Send a form or values to the site without leaving the page. The token is that of any form here.
export function token() {
  return document.querySelector("input[name=_token]").value;
}

export async function send(path, body, signal) {
  return fetch(path, {
    method: "POST",
    body,
    signal,
    credentials: "same-origin",
    headers: { "X-CSRF-Token": token(), Accept: "text/html" },
  });
}
