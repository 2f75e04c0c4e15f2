"""After editing a chapter: ``python -m shoulder_model.recipes.notebooks [workbook/NAME.ipynb ...]``.

Runs each notebook in the present environment and stores it the way it is kept: text output of the cells
tagged ``nbval-check-output``, an execution count everywhere, code hidden on the page and in exports, no pictures, no widget
state, no times. The digests by which the launcher trusts what was shipped are written again.
"""

import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

from ..lab.trust import write_list

WORKBOOK = Path(__file__).parents[2] / "workbook"
COMPARED = "nbval-check-output"
TEXT = {"text/plain", "text/markdown", "text/latex"}
HIDDEN = {"jupyter": {"source_hidden": True}, "transient": {"remove_source": True}}  # in JupyterLab; in exports


def run(path):
    """The notebook at ``path`` with the text and pictures that running all of its cells gives."""
    notebook = nbformat.read(path, as_version=4)
    client = NotebookClient(
        notebook,
        timeout=120,
        kernel_name="python3",
        coalesce_streams=True,
        resources={"metadata": {"path": str(path.parent)}},
    )
    return client.execute()


def comparable(cell):
    """Outputs of a compared cell, as they are; anything but text is refused, since it cannot be stored and compared.

    Raises
    ------
    ValueError
        Where the cell gives a picture, a table in HTML, a widget or a warning; the text shows the cell.
    """
    for output in cell.outputs:
        kinds = {output.name} - {"stdout"} if output.output_type == "stream" else set(output.data) - TEXT
        if kinds:
            refused = ", ".join(sorted(kinds))
            raise ValueError(f"a cell tagged {COMPARED} must give text only, not {refused}; print it:\n{cell.source}")
    return cell.outputs


def kept(notebook):
    """``notebook`` with nothing in it but what a page or a check needs."""
    notebook.metadata = nbformat.from_dict(
        {
            "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
            "language_info": {"name": "python"},
        }
    )
    for count, cell in enumerate((cell for cell in notebook.cells if cell.cell_type == "code"), start=1):
        for name in ("execution", "last_picture"):  # the second is the page's, of a saved panel
            cell.metadata.pop(name, None)
        cell.metadata |= HIDDEN
        cell.execution_count = count
        cell.outputs = comparable(cell) if COMPARED in cell.metadata.get("tags", []) else []
        for output in cell.outputs:
            if "execution_count" in output:
                output.execution_count = count
    return notebook


def refresh(path):
    """Run one notebook and write it back."""
    notebook = kept(run(path))
    nbformat.validate(notebook)
    nbformat.write(notebook, path)


def main():
    """Refresh the notebooks that the command line names, or all of them."""
    for wanted in [Path(name) for name in sys.argv[1:]] or sorted(WORKBOOK.glob("*.ipynb")):
        refresh(wanted.resolve())
        print(f"refreshed {wanted}")
    write_list()


if __name__ == "__main__":
    main()
