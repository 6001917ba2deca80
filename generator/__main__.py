"""Run the command line: ``onlot``, or ``python -m generator``."""

import sys

INTERRUPTED = 130  # as a shell tells of a program that an interrupt ended


def run() -> None:
    """Run one command; an interrupt ends it quietly, also while it still loads."""
    try:
        from generator.cli import main

        main()
    except KeyboardInterrupt:
        print("\nAborted!", file=sys.stderr)
        raise SystemExit(INTERRUPTED) from None


if __name__ == "__main__":
    run()
