"""bulletin.toml: what no table can hold. `read_settings` reads it, `Settings` is what it says."""

from bulletin.settings.codes import minor_digits
from bulletin.settings.reading import read_settings, settings_places
from bulletin.settings.shape import Checks, Credit, Maker, Notice, Settings, TableSettings, Tier

__all__ = [
    "Checks",
    "Credit",
    "Maker",
    "Notice",
    "Settings",
    "TableSettings",
    "Tier",
    "minor_digits",
    "read_settings",
    "settings_places",
]
