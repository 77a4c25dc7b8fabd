"""No request leaves the page for another host, and only our scripts run: what is changed for it, and where."""

import base64
import hashlib
import re
from pathlib import Path

import pytest
from flet_web import get_package_web_dir

from app.own_host import asking_no_other_host
from app.policy import policy_of, taking_the_nonce, with_nonce
from app.reading_order import in_reading_order

WEB = Path(get_package_web_dir())
PAGE = (
    "<head><style>p {}</style></head><script>one();</script><script src='two.js'></script><script>\nthree();\n</script>"
)


@pytest.fixture(scope="module")
def client() -> bytes:
    return (WEB / "main.dart.js").read_bytes()


def allowed(policy: str, what: str) -> list[str]:
    """What a policy allows of one kind."""
    (found,) = (each.split()[1:] for each in policy.split("; ") if each.split()[0] == what)
    return found


def hash_of(script: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()}'"


def test_a_page_allows_its_own_scripts_and_no_others() -> None:
    policy = policy_of(PAGE, "n1")
    scripts = allowed(policy, "script-src")
    assert scripts == ["'self'", "blob:", "'wasm-unsafe-eval'", hash_of("one();"), hash_of("\nthree();\n")]
    assert allowed(policy, "style-src") == ["'self'", "'nonce-n1'"]
    assert allowed(policy, "default-src") == ["'self'", "blob:", "data:"]
    assert "connect-src" not in policy
    assert allowed(policy_of(PAGE, "n1", "ws://here"), "connect-src") == ["'self'", "blob:", "data:", "ws://here"]
    assert allowed(policy_of(""), "style-src") == ["'self'"]


def test_the_pages_own_style_sheet_and_the_client_have_the_nonce() -> None:
    assert '<style nonce="n1">p {}' in with_nonce(PAGE, "n1")
    start = (WEB / "flutter_bootstrap.js").read_text("utf-8")
    assert taking_the_nonce(start).count('nonce: document.querySelector("style")?.nonce,') == 1
    for changed in ("", start * 2):
        with pytest.raises(ValueError, match="has changed"):
            taking_the_nonce(changed)


@pytest.mark.parametrize("name", ["index.html", "404.html"])
def test_the_site_allows_what_stands_in_its_page(site: Path, name: str) -> None:
    page = (site / name).read_text("utf-8")
    (policy,) = re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">', page)
    assert page.index(policy) < page.index("<script"), "it holds for all that follows it"
    assert "'unsafe-" not in policy
    inline = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    assert len(inline) >= 2
    assert [each for each in allowed(policy, "script-src") if "sha256" in each] == [hash_of(each) for each in inline]
    (nonce,) = re.findall(r'<style nonce="([0-9a-f]{32})">', page)
    assert allowed(policy, "style-src") == ["'self'", f"'nonce-{nonce}'"]
    assert not re.search(r"\son\w+=|\sstyle=|javascript:", page), "what no hash allows"


def test_only_a_site_that_is_driven_by_a_test_compiles_text(site: Path, driven_site: Path) -> None:
    kept, driven = ((each / "index.html").read_text("utf-8") for each in (site, driven_site))
    assert driven.replace(" 'unsafe-eval'", "") == kept


def test_the_site_has_the_changed_client(client: bytes, site: Path) -> None:
    assert (site / "main.dart.js").read_bytes() == asking_no_other_host(in_reading_order(client))
    assert "?.nonce" in (site / "flutter_bootstrap.js").read_text("utf-8")
