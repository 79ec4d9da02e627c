"""The people who ordered: invented names of the kind their market has, and addresses that lead nowhere."""

from __future__ import annotations

from random import Random

from tests.demo.ordering import Book

NAMES = {
    "de": (
        "Liesel Arno Mirja Korbin Tilda Hagen Svea Ruven Yasna Edda Falk Wiebke",
        "Ahrenfold Brunnecker Dornhagel Eschlinger Finkmoser Grabnitz Holtmayring Kirschlauer Lindhufen Mosbrenner",
    ),
    "en": (
        "Maren Odile Corwin Tamsin Ellery Bram Isolde Wystan Petra Linus Sunniva Garrick",
        "Ashcombley Birkhollow Crannock Dunmarrow Elverstone Fothergale Harkswell Larchmere Pennifold Thornaby",
    ),
    "es": ("Nerea Tadeo Ximena Amaro Zulema Brais", "Albarracedo Berrocalde Castroviña Fuentelar Montesol Robledar"),
    "fr": ("Maëlle Anselme Solène Tancrède Oriane Yvain", "Aubrelande Boisfleury Chantegrive Dormevald Roncelet Valmourin"),
    "ja": ("澪 蒼介 ゆら 千弦 柾 織江", "藤灘 梓沢 汐路 羽佐原 榎戸川 月見里原"),
    "pl": ("Bogna Radomir Kalina Zbylut Jagna Dobrosz", "Brzezomir Dąbrolas Jarzębiec Klonowicki Modrzewiak Wierzbolik"),
    "ar": ("ريما سليم نوف جود لمى فارس", "الرملاوي السدوي المرجاني النسيجي الواحي الخيطي"),
}
BEFORE_FAMILY = {"ja"}


def written(rng: Random, language: str) -> str:
    """A name as its owner writes it."""
    given, family = (rng.choice(names.split()) for names in NAMES[language])
    return f"{family} {given}" if language in BEFORE_FAMILY else f"{given} {family}"


def contact_rows(book: Book) -> list[list[str]]:
    """The rows of contacts.csv: each order has one; a few gave no name, a few want no weekly mail, some come again."""
    rng = Random(1869)
    rows: list[list[str]] = []
    for number, (order, units) in enumerate(book.orders().items(), 1):
        language = units[0].locale.split("-")[0]
        name = written(rng, language) if rng.random() > 0.01 else ""
        mail = f"reader{number}@{units[0].market.code.lower()}.example"
        rows.append([order, name, mail, "no" if rng.random() < 0.07 else "yes"])
    return rows
