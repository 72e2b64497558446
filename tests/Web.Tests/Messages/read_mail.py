"""Reads messages with Python's own e-mail library (RFC 5322, RFC 2045): the second library of the mail tests.
usage: read_mail.py FOLDER -> one JSON object on standard output, a message a file."""
import json
import pathlib
import sys
from email import policy
from email.parser import BytesParser

read = {}
for file in sorted(pathlib.Path(sys.argv[1]).glob("*.eml")):
    message = BytesParser(policy=policy.default).parsebytes(file.read_bytes())
    plain, html = message.get_body(("plain",)), message.get_body(("html",))
    parts = list(message.walk())
    read[file.name] = {
        "id": message["Message-ID"], "from": message["From"].addresses[0].addr_spec, "to": message["To"].addresses[0].addr_spec,
        "name": message["To"].addresses[0].display_name, "subject": str(message["Subject"]), "date": message["Date"].datetime.isoformat(),
        "type": message.get_content_type(), "kinds": [p.get_content_type() for p in parts], "plain": plain.get_content(), "html": html.get_content(),
        "unsubscribe": message["List-Unsubscribe"], "oneClick": message["List-Unsubscribe-Post"], "auto": message["Auto-Submitted"],
        "defects": [repr(d) for p in parts for d in p.defects] + [repr(d) for v in message.values() for d in getattr(v, "defects", [])],
        "longest": max(len(line) for line in file.read_bytes().split(b"\r\n")),
    }
json.dump(read, sys.stdout)
