"""The tests with water that a visit can make: through the tank, and of two days."""

from __future__ import annotations

from generator.findings.on_load_test import load_test_findings
from generator.findings.on_two_day_test import two_day_findings
from generator.findings.validity import doubts

__all__ = ["doubts", "load_test_findings", "two_day_findings"]
