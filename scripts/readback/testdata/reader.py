"""Prints what ezdxf finds in a drawing: python3 reader.py DRAWING."""
import json
import logging
import sys

import ezdxf
from ezdxf.tools.text import plain_text

problems = []


class Keep(logging.Handler):
    def emit(self, record):
        problems.append(record.getMessage())


logging.getLogger("ezdxf").addHandler(Keep(logging.WARNING))
doc = ezdxf.readfile(sys.argv[1])
version = doc.loaded_dxfversion or doc.dxfversion
audit = doc.audit()
problems += [e.message for e in audit.errors + audit.fixes]


def entity(e):
    out = {"type": e.dxftype(), "layer": e.dxf.layer}
    if e.dxftype() == "POLYLINE":
        out["closed"] = e.is_closed
        out["points"] = [[p.x, p.y] for p in e.points()]
    elif e.dxftype() == "LINE":
        out["points"] = [[p.x, p.y] for p in (e.dxf.start, e.dxf.end)]
    elif e.dxftype() == "TEXT":
        out["points"] = [[e.dxf.insert.x, e.dxf.insert.y]]
        # readfile leaves characters written as \U+XXXX to its caller.
        out["text"] = plain_text(ezdxf.decode_dxf_unicode(e.dxf.text))
        out["height"] = e.dxf.height
        out["angle"] = e.dxf.rotation
    return out


def dashes(t):
    return [tag.value for tag in t.pattern_tags.tags if tag.code == 49]


# ByLayer, ByBlock and Defpoints are its own, in every drawing it opens.
print(json.dumps({
    "version": version,
    "problems": problems,
    "layers": {x.dxf.name: x.dxf.linetype for x in doc.layers if x.dxf.name != "Defpoints"},
    "dashes": {t.dxf.name: dashes(t) for t in doc.linetypes
               if t.dxf.name.lower() not in ("bylayer", "byblock")},
    "entities": [entity(e) for e in doc.modelspace()],
}))
