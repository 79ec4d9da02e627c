"""The tables of the record: `issued.db`, the ledger of all bulletins, and `issued/N.db`, the orders as bulletin N knew them.

A row of `bulletin` is chained to the one before by `previous`, and its `digest` covers everything the bulletin holds. Texts and
documents are kept once, under the digest of their bytes. The orders' file is covered by the digest of its rows' digests, each
with a salt of its own: a person's row can be emptied, its digest stays, and the chain still holds.
"""

LEDGER = """
CREATE TABLE bulletin (
    number INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    as_of TEXT NOT NULL,
    published TEXT NOT NULL,
    corrects INTEGER REFERENCES bulletin (number),
    orders_digest TEXT NOT NULL,
    previous TEXT NOT NULL,
    digest TEXT NOT NULL UNIQUE
) STRICT;
CREATE TABLE content (digest TEXT PRIMARY KEY, bytes BLOB NOT NULL) STRICT;
CREATE TABLE source (
    number INTEGER NOT NULL REFERENCES bulletin (number),
    file TEXT NOT NULL,
    salt TEXT NOT NULL,
    digest TEXT NOT NULL,
    PRIMARY KEY (number, file)
) STRICT;
CREATE TABLE fact (
    number INTEGER NOT NULL REFERENCES bulletin (number),
    key TEXT NOT NULL,
    spelling TEXT NOT NULL,
    value TEXT NOT NULL,
    unit TEXT NOT NULL,
    basis TEXT NOT NULL,
    decimals INTEGER NOT NULL,
    rounding TEXT NOT NULL,
    at_least INTEGER NOT NULL,
    how TEXT NOT NULL,
    rows TEXT NOT NULL,
    PRIMARY KEY (number, key)
) STRICT;
CREATE TABLE draft (
    number INTEGER NOT NULL REFERENCES bulletin (number),
    locale TEXT NOT NULL,
    file TEXT NOT NULL,
    readers TEXT NOT NULL,
    digest TEXT NOT NULL REFERENCES content (digest),
    PRIMARY KEY (number, locale)
) STRICT;
CREATE TABLE claim (
    number INTEGER NOT NULL REFERENCES bulletin (number),
    locale TEXT NOT NULL,
    key TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (number, locale, key)
) STRICT;
CREATE TABLE document (
    number INTEGER NOT NULL REFERENCES bulletin (number),
    path TEXT NOT NULL,
    media_type TEXT NOT NULL,
    digest TEXT NOT NULL REFERENCES content (digest),
    PRIMARY KEY (number, path)
) STRICT;
CREATE TABLE promise (
    number INTEGER NOT NULL REFERENCES bulletin (number),
    promise TEXT NOT NULL,
    text TEXT NOT NULL,
    due TEXT NOT NULL,
    basis TEXT NOT NULL,
    condition TEXT NOT NULL,
    PRIMARY KEY (number, promise)
) STRICT;
"""

ORDERS = """
CREATE TABLE state (
    "order" TEXT NOT NULL,
    line TEXT NOT NULL,
    state TEXT,
    salt TEXT,
    digest TEXT NOT NULL,
    PRIMARY KEY ("order", line)
) STRICT, WITHOUT ROWID;
"""
