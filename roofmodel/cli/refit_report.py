"""How the command line prints the chosen method: its layers, depths and lights."""

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Console
from rich.text import Text

from roofmodel.cli.table import made


def refit(content: Mapping[str, Any], console: Console) -> None:
    """Print the layers from the room outwards, then depths and lights."""
    console.print(Text(f"Method: {content['title']}", style="bold"))
    if content["refused"]:
        console.print(Text(f"Cannot be used on this roof. {content['refused']}", style="red"))
    if "layers" not in content:
        return
    _layers(content["layers"], console)
    for one in content["depths"]:
        console.print(Text(one["text"]))
    if content["headroom_lost_mm"]:
        console.print(Text(f"Headroom lost: {content['headroom_lost_mm']:.0f} mm"))
    for report in content["lights"]:
        for sentence in report["said"]:
            console.print(Text(sentence))
        for caution in report["cautions"]:
            console.print(Text(caution, style="dim"))


def _layers(layers: Sequence[Mapping[str, Any]], console: Console) -> None:
    table = made(
        "No", "Layer", "Position", "Thickness mm", "From mm", "To mm", "Area m²", "Purpose"
    )
    for layer in layers:
        table.add_row(
            str(layer["number"]),
            layer["name"],
            layer["lies"],
            f"{layer['thickness_mm']:g}",
            f"{layer['inside_mm']:g}",
            f"{layer['outside_mm']:g}",
            f"{layer['area_m2']:.3f}",
            layer["purpose"],
        )
    console.print(table)
    console.print(
        "Layers are listed from the room outwards; distances are from the top of the bars."
    )
