"""One person's server, as that person: a hub runs ``python -m shoulder_model.lab.hub``.

Lays the workbook out in the person's own folder, signs what was shipped, and sets JupyterLab as the launcher does.
"""

import os
import sys

from ...checkout import FIRST
from ..launch import environment, page_arguments, trust, without_foreign
from ..places import own_copy, state_folder

HUB = ("JUPYTERHUB_", "JPY_API_TOKEN")  # how variables begin with which the hub speaks to this server


def set_up():
    """Make the person's folders, and set this process; gives the command line of the server, a list of text."""
    os.umask(0o077)  # whatever is made here is for its owner alone
    home = own_copy()
    state, _ = state_folder(home)
    hub = {name: value for name, value in os.environ.items() if name.startswith(HUB)}
    variables = without_foreign(os.environ) | hub | environment(state)
    os.environ.clear()
    os.environ.update(variables)
    trust(home, state / "jupyter")
    return page_arguments(home, state, f"workbook/{FIRST}.ipynb")


if __name__ == "__main__":
    sys.argv[1:1] = set_up()
    from jupyterhub.singleuser import main  # after the environment is set

    main()
