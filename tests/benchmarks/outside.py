"""Instances nobody here made, solved with the installed package: one JSON line per answer.

    python tests/benchmarks/outside.py sop FILE... [--seconds N]
    python tests/benchmarks/outside.py andor FILE... [--target T]
    python tests/benchmarks/outside.py plant --components N --seed S [--seconds N]

`plant` makes its appliance-like instance itself (see appliances.py). A sub-command is a module of this folder with
`add_arguments(parser)` and `lines(arguments)`, which yields dictionaries.
"""

import argparse
import json
from types import ModuleType

import andor
import plant
import sop

COMMANDS: dict[str, ModuleType] = {"sop": sop, "andor": andor, "plant": plant}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    commands = parser.add_subparsers(dest="command", required=True)
    for name, module in COMMANDS.items():
        first_line = (module.__doc__ or "").splitlines()[0]
        module.add_arguments(commands.add_parser(name, help=first_line, description=module.__doc__))
    arguments = parser.parse_args()
    for line in COMMANDS[arguments.command].lines(arguments):
        print(json.dumps(line), flush=True)


if __name__ == "__main__":
    main()
