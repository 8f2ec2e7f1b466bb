"""What makes a finding the same finding tomorrow: its rule, its place in the document and what it says.

Lines do not count, nor does the position of an item in a list: the scope already names the step, joint or item.
Used by the outputs for code hosts and by the record of known findings.
"""

from hashlib import sha256

from .model import FAIL


def place_key(finding, path):
    """The rule, file, scope and place in the document, without lines and list positions."""
    pointer = "/".join("*" if part.isdigit() else part for part in finding.pointer.split("/"))
    return "\x1f".join((finding.rule, path, "\x1e".join(finding.scope), pointer))


def of_report(report, path=None):
    """[(finding, place fingerprint, content fingerprint)] of all that failed, in order; equal ones are counted.

    ``path`` is the name of the spec to be used, with forward slashes.
    """
    path = report.path if path is None else path
    seen, found = {}, []
    for finding in report.findings:
        if finding.kind != FAIL:
            continue
        key = place_key(finding, path)
        seen[key] = seen.get(key, 0) + 1
        place = sha256(f"{key}\x1f{seen[key]}".encode("utf-8", "surrogatepass")).hexdigest()[:32]
        content = sha256(f"{finding.level}\x1f{finding.message}".encode("utf-8", "surrogatepass")).hexdigest()[:32]
        found.append((finding, place, content))
    return found
