"""Write the server's OpenAPI document, from which the screen's types are generated: python tools/openapi.py FILE."""

import json
import sys
from pathlib import Path

from braidwright.app.studio import Studio
from braidwright.web.server import create_app

if __name__ == "__main__":
    document = create_app(Studio(), port=80).openapi()
    Path(sys.argv[1]).write_text(json.dumps(document, indent=1, sort_keys=True), encoding="utf-8")
