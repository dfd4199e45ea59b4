"""Who is let in: hosts, origins, tokens, sizes, and the headers on every answer."""

import pytest
from lxml import html

from site_server import TEST_HOST, Browse
from squadwright.web.security import HEADERS, LARGEST_BODY_BYTES, is_own_path

ORIGIN = f"http://{TEST_HOST}"
FILLED = {"theme": "dark", "back": "/patterns"}


def theme_of(browse: Browse) -> str:
    return str(html.fromstring(browse.get("/patterns").text).get("data-theme"))


@pytest.mark.parametrize(
    "host",
    ["gym.example", "testserver.gym.example", "testserver:81", "127.0.0.1", "", "TESTSERVER."],
)
def test_another_host_is_refused_before_anything_is_read(browse: Browse, host: str) -> None:
    answer = browse.get("/patterns", headers={"Host": host})
    assert answer.status_code == 400
    assert "not one of this site" in answer.text


def test_a_write_with_token_and_origin_is_done(browse: Browse) -> None:
    assert theme_of(browse) == "device"
    assert browse.post("/look/theme", FILLED).status_code == 200
    assert theme_of(browse) == "dark"


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://gym.example"},
        {"Origin": "null"},
        {"Origin": f"http://{TEST_HOST}.gym.example"},
        {"Origin": f"http://{TEST_HOST}:8000"},
        {"Origin": "", "Referer": "http://gym.example/page"},
        {"Origin": ""},
    ],
)
def test_a_write_from_another_origin_is_refused(browse: Browse, headers: dict[str, str]) -> None:
    answer = browse.post("/look/theme", FILLED, headers=headers)
    assert answer.status_code == 403
    assert theme_of(browse) == "device"


def test_a_write_without_origin_is_judged_by_its_referrer(browse: Browse) -> None:
    sent = {**FILLED, "_token": browse.token()}
    referrer = {"Referer": f"{ORIGIN}/patterns"}
    assert browse.client.post("/look/theme", data=sent, headers=referrer).status_code == 200
    assert browse.client.post("/look/theme", data=sent).status_code == 403


@pytest.mark.parametrize("token", ["", "00", "zz", "0" * 128, "é", "0" * 5000])
def test_a_write_with_a_wrong_token_is_refused(browse: Browse, token: str) -> None:
    answer = browse.post("/look/theme", {**FILLED, "_token": token})
    assert answer.status_code == 403
    assert "load it again" in answer.text
    assert theme_of(browse) == "device"


def test_the_token_of_another_browser_is_refused(browse: Browse, browse_empty: Browse) -> None:
    foreign = browse_empty.token()
    assert browse.post("/look/theme", {**FILLED, "_token": foreign}).status_code == 403


def test_a_write_may_bring_its_token_in_a_header(browse: Browse) -> None:
    token = browse.token()
    headers = {"Origin": ORIGIN, "X-CSRF-Token": token}
    assert browse.client.post("/look/theme", data=FILLED, headers=headers).status_code == 200
    headers["X-CSRF-Token"] = token[:-2] + ("00" if token[-2:] != "00" else "11")
    assert browse.client.post("/look/theme", data=FILLED, headers=headers).status_code == 403


def test_the_token_looks_different_on_every_page(browse: Browse) -> None:
    assert browse.token() != browse.token()


@pytest.mark.parametrize("method", ["PUT", "PATCH", "DELETE"])
def test_methods_that_write_want_a_token_as_well(browse: Browse, method: str) -> None:
    assert browse.client.request(method, "/patterns").status_code == 403


def test_more_than_the_limit_is_refused_whether_announced_or_not(browse: Browse) -> None:
    headers = {"Origin": ORIGIN, "X-CSRF-Token": browse.token()}
    body = b"x" * (LARGEST_BODY_BYTES + 1)

    def unannounced() -> object:
        yield body

    for content in (body, unannounced()):
        answer = browse.client.post("/look/theme", content=content, headers=headers)
        assert answer.status_code == 413
        assert "more than 5 MB" in answer.text


def test_a_form_that_cannot_be_read_is_refused_in_words(browse: Browse) -> None:
    headers = {"Origin": ORIGIN, "Content-Type": "multipart/form-data; boundary=x"}
    answer = browse.client.post("/look/theme", content=b"--y\r\nnonsense", headers=headers)
    assert answer.status_code in (400, 403)
    too_many = "&".join(f"a{n}=1" for n in range(5000))
    headers["Content-Type"] = "application/x-www-form-urlencoded"
    assert browse.client.post("/look/theme", content=too_many, headers=headers).status_code == 400


@pytest.mark.parametrize(
    "path", ["/patterns", "/nothing", "/robots.txt", "/patterns/in/none", "/look/theme"]
)
def test_every_answer_carries_the_headers(browse: Browse, path: str) -> None:
    answer = browse.get(path)
    for name, value in HEADERS.items():
        assert answer.headers[name] == value
    refused = browse.get(path, headers={"Host": "gym.example"})
    assert refused.headers["Content-Security-Policy"] == HEADERS["Content-Security-Policy"]


def test_the_policy_allows_no_inline_script_or_style() -> None:
    policy = HEADERS["Content-Security-Policy"]
    assert "unsafe" not in policy
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy


def test_cookies_are_out_of_reach_of_scripts_and_of_other_sites(browse: Browse) -> None:
    first = browse.get("/patterns").headers.get_list("Set-Cookie")
    browse.client.cookies.clear()
    fresh = browse.get("/patterns").headers.get_list("Set-Cookie")
    browse.client.follow_redirects = False
    kept = browse.post("/look/theme", FILLED).headers.get_list("Set-Cookie")
    assert first
    assert kept
    for cookie in (*first, *fresh, *kept):
        assert "httponly" in cookie.lower()
        assert "samesite=strict" in cookie.lower()


@pytest.mark.parametrize("path", ["//gym.example", "https://gym.example", "/\\gym", "/a\r\nb", ""])
def test_a_choice_of_theme_never_leads_to_another_site(browse: Browse, path: str) -> None:
    assert not is_own_path(path)
    browse.client.follow_redirects = False
    answer = browse.post("/look/theme", {"theme": "dark", "back": path})
    assert answer.status_code in (303, 422)
    assert answer.headers.get("Location", "/") == "/"
