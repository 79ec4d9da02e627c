"""The sentence of each problem that does not word itself, by the name of its rule.

`{words}` is the evidence, other names are the problem's details. A sentence says what was found and what was expected; the
offer, where there is one, is printed below it.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

SETTINGS: Mapping[str, str] = MappingProxyType(
    {
        "settings-missing": "this is no data folder: go into yours, or name it with --data ({folder} has no bulletin.toml)",
        "settings-not-utf-8": "this file is not UTF-8 from here on: save it as UTF-8",
        "settings-not-toml": "this is not TOML: {fault}",
        "settings-text-unquoted": "this is not TOML ({fault}): put text in quotation marks",
        "setting-unknown": 'no setting is called "{key}"',
        "setting-missing": 'the setting "{key}" is missing',
        "setting-wrong": '"{key}" is "{words}", expected was {expected}',
        "notice-rule-unknown": (
            "nothing is known of {words}: notices under it say nothing of silence until a file of texts names it (texts = ...)"
        ),
        "notice-texts-missing": "{words} is no file of the data folder: the texts of notices stand in a file of it",
        "notice-texts-outside": "{words} lies outside the data folder: the texts of notices stand in a file of it",
        "notice-words-untranslated": "these words are missing in {locales}: their readers get the English ones",
        "time-zone-missing": "no time_zone is set: days are those of UTC",
        "fill-unused": '"fill" names {column}, but the file has that column: what the file says is read',
        "leave-out-unused": 'no row has "{words}" in {column}: this takes nothing away',
    }
)

RUN: Mapping[str, str] = MappingProxyType(
    {
        "folder-taken": "{words} holds something else than a copy of the demo: name another folder with --out",
        "demo-changed": "this was changed since the demo was copied: name another folder with --out, or remove {words}",
        "out-unwritable": "no document can be written below {words}: {why}; nothing was written, nothing is on record",
        "days-apart": "the languages of one bulletin speak of different days ({days}): give them the same As-of",
        "refund-due": "under {words}, {count} orders are to be paid back, cancelled or not consented to in time: {orders}",
        "built-after-issue": '"{words}" is on record as number {number}: what was built now is not what was issued',
        "record-missing": "there is no record here",
        "record-lost": "{folder} holds {count} issued bulletins, but the ledger {words} is gone: restore it from a backup",
        "key-unknown": 'no fact is called "{words}"',
        "order-unknown": 'there is no order "{words}" on that day: check its number',
        "draft-missing": 'there is no draft called "{words}" here, only: {known}',
        "already-issued": '"{name}" was issued as number {number} and can\'t be changed: say what a new one corrects',
        "rule-unknown": 'no rule is called "{words}"',
        "translation-missing": '"{words}" has no translation: every draft in another locale than {locale} is one',
        "original-missing": '"{words}" has no draft in the first locale that this one could follow',
        "draft-unwritten": "{words} can't be written: {why}",
        "nothing-to-correct": "bulletin {number} is not the newest of the name \"{name}\", which alone can be corrected",
        "record-unreadable": "the record can't be read or written: {why}",
        "record-altered": "bulletin {number} is not as it was issued: {what} was altered or is gone",
    }
)

TABLES: Mapping[str, str] = MappingProxyType(
    {
        "table-missing": "the table {table} is missing",
        "table-empty": "the table {table} is empty: it needs a header row with the names of its columns",
        "table-unreadable": "the table {table} cannot be opened: {fault}",
        "table-not-in-encoding": (
            "the byte {words} is not {encoding}: name its encoding under [tables.{table}] in bulletin.toml, or save it as UTF-8"
        ),
        "table-in-utf-16": "this file is in UTF-16: say so under [tables.{table}] in bulletin.toml, or save it as CSV UTF-8",
        "table-is-workbook": "this is {words}: save it as CSV UTF-8",
        "delimiter-otherwise": (
            "this file is separated by {signs}: write delimiter = {delimiter} under [tables.{table}] in bulletin.toml"
        ),
        "table-path-outside": 'the file of {table}, "{words}", lies outside the data folder',
        "file-misnamed": "{words} is not read; did you mean {file}?",
        "files-unread": (
            "no table is read from {words}: a file has the name of its table, or stands under [tables.<name>] in bulletin.toml"
        ),
        "column-missing": 'the column "{column}" is missing',
        "column-misspelt": 'the column "{column}" is missing, this one is called "{words}"',
        "column-elsewhere": (
            'the column "{column}" is missing; if it is the one called "{words}", '
            "say so under [tables.{table}] in bulletin.toml"
        ),
        "column-twice": 'the column "{column}" stands here a second time',
        "column-unknown": 'the column "{column}" is not known and not read',
        "row-short": "this row has {cells} cells, the header has {columns}: cells are missing",
        "row-long": "this row has {cells} cells, the header has {columns}: put cells that hold a delimiter in quotes",
        "quote-open": "the quote that opens here is never closed",
        "quote-followed": "something follows the closing quote of this cell: double the quotes inside a cell",
        "cell-too-long": "a cell of this row is longer than 131,072 characters: is a quote missing before it?",
        "cell-missing": "{column} is empty",
        "cell-has-control-character": '{column} is "{words}", which holds a control character',
        "cell-path-outside": '{column} is "{words}", which lies outside the data folder',
        "cell-not-a-choice": '{column} is "{words}", expected was one of {choices}',
        "choice-in-other-words": (
            '{column} is "{words}", expected was one of {choices}; if the file writes it so throughout, '
            "put {settings} under [tables.{table}] in bulletin.toml"
        ),
        "cell-not-a-market": '{column} is "{words}", expected was an ISO 3166-1 country code, such as AT',
        "cell-not-a-locale": '{column} is "{words}", expected was a BCP 47 locale, such as de or de-AT',
        "cell-not-a-currency": '{column} is "{words}", expected was an ISO 4217 currency code, such as EUR',
        "cell-not-a-day": '{column} is "{words}", expected was a day written as {example}',
        "cell-not-a-moment": '{column} is "{words}", expected was a moment in ISO 8601, such as {example}',
        "date-does-not-exist": '{column} is "{words}", which does not exist: look it up in the calendar',
        "date-out-of-range": '{column} is "{words}", expected was a year from 1900 to 2199',
        "date-written-otherwise": (
            '{column} is "{words}", expected was one written as {example}; if the file writes it so throughout, '
            "put {settings} under [tables.{table}] in bulletin.toml"
        ),
        "cell-not-whole": '{column} is "{words}", expected was a whole number',
        "cell-not-a-number": '{column} is "{words}", expected was a number such as {example}',
        "cell-too-small": '{column} is "{words}", it must be {limit}',
        "cell-too-large": '{column} is "{words}", it must be {limit}',
        "amount-not-in-minor-units": '{column} is "{words}", but an amount in {currency} has at most {digits} decimals',
        "row-twice": "the row of line {first} has the same {key_columns}: each may stand once",
        "days-reversed": "{second_column} {second_text} is before {first_column} {first_text}",
        "numbers-reversed": "{first_column} {first_text} is more than {second_column} {second_text}",
        "reference-lost": '{column} is "{words}", which {target} does not hold: add {words} to {target}, or correct it here',
        "status-against-boxing": '{column} is "{words}", but its unit {serial} stands boxed (line {line} of {file})',
        "status-without-boxing": '{column} is "{words}", but {file} has no row for this order',
        "structure-loop": "this component contains itself: {loop}",
        "currency-without-tier": "no tier of waiting credit names {words} ({rows} orders); tiers name {named}",
    }
)

SENTENCES: Mapping[str, str] = MappingProxyType({**SETTINGS, **RUN, **TABLES})
