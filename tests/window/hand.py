#!/usr/bin/python3
"""Finds things in the running window by their label, as a screen reader does (AT-SPI over D-Bus).

    hand.py place LABEL        x y of what can be pressed, counted from the window's corner
    hand.py place-before TEXT  x y of what can be pressed right before a text
    hand.py field LABEL        x y of a place to type
    hand.py bring TABLE        scrolls a table into sight, with room for its first rows
    hand.py focused LABEL      waits until a place to type has the keyboard
    hand.py holds LABEL TEXT   waits until exactly this is typed on it
    hand.py sees TEXT          waits until a text with this in it is in the window
    hand.py gone LABEL         waits until no place to type has this label
    hand.py labels             everything that has a label, in reading order
    hand.py named COUNT        whether all that can be used has a label, and there are COUNT of it at least

Every order waits until it can be done, HAND_SECONDS at most (30). Nothing is pressed from here: so
could what is covered, which no mouse reaches. WINDOW_PROCESS is the process of the window, WINDOW_SIZE
its size as the display knows it (1280x760).
"""

import os
import sys
import time

try:
    from gi.repository import Gio, GLib
except ImportError:
    sys.exit("Python can't reach D-Bus: install python3-gi.")

# Numbers of the AT-SPI protocol: roles, the bit of a state, how to scroll and to count places.
SCROLL_BAR, TABLE, ENTRY = 48, 55, 79
ENABLED, FOCUSED = 8, 12
ANYWHERE, FROM_THE_WINDOW = 6, 1

HINT = "Is at-spi-bus-launcher running (--a11y=1) on the bus that DBUS_SESSION_BUS_ADDRESS names?"


class NotYet(Exception):
    """What is wrong as long as nothing changes: said when the time is up."""


def call(bus, name, path, interface, method, kinds="()", *given):
    given = GLib.Variant(kinds, given)
    answer = bus.call_sync(name, path, interface, method, given, None, Gio.DBusCallFlags.NONE, 10_000, None)
    return answer.unpack()


class Thing:
    """Something in the window: what its label, role and state were when all were read."""

    def __init__(self, window, item):
        (_, self.path), _, (_, self.panel), self.at, _, self.can, label, self.role, _, self.states = item
        self.window, self.label = window, label.strip()

    def is_field(self):
        return self.role == ENTRY

    def is_pressable(self):
        return not self.is_field() and "org.a11y.atspi.Action" in self.can

    def has(self, state):
        return bool(self.states[state // 32] >> state % 32 & 1)

    def ask(self, interface, method, kinds="()", *given):
        interface = f"org.a11y.atspi.{interface}"
        return call(self.window.bus, self.window.name, self.path, interface, method, kinds, *given)

    def extents(self):
        """x, y, width and height, counted from the window's corner."""
        return self.ask("Component", "GetExtents", "(u)", FROM_THE_WINDOW)[0]

    def scroll_here(self):
        self.ask("Component", "ScrollTo", "(u)", ANYWHERE)

    def text(self):
        return self.ask("Text", "GetText", "(ii)", 0, -1)[0]


class Window:
    """The window of a process, read anew by each of `things`."""

    def __init__(self, process):
        session = Gio.bus_get_sync(Gio.BusType.SESSION, None)
        address = call(session, "org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress")[0]
        flags = Gio.DBusConnectionFlags
        flags = flags.AUTHENTICATION_CLIENT | flags.MESSAGE_BUS_CONNECTION
        self.bus = Gio.DBusConnection.new_for_address_sync(address, flags, None, None)
        self.name = self.name_of(process)

    def name_of(self, process):
        """The name on the bus of what a process shows."""
        root, daemon = "/org/a11y/atspi/accessible/root", "org.freedesktop.DBus"
        shown = call(self.bus, "org.a11y.atspi.Registry", root, "org.a11y.atspi.Accessible", "GetChildren")[0]
        for name, _ in shown:
            asked = daemon, "/org/freedesktop/DBus", daemon, "GetConnectionUnixProcessID"
            if call(self.bus, *asked, "(s)", name)[0] == process:
                return name
        raise NotYet(f"The window of process {process} is not known to AT-SPI. {HINT}")

    def things(self):
        """Everything in it, the frame first, in reading order."""
        items = call(self.bus, self.name, "/org/a11y/atspi/cache", "org.a11y.atspi.Cache", "GetItems")[0]
        inside = {}
        for item in items[1:]:
            thing = Thing(self, item)
            inside.setdefault(thing.panel, []).append(thing)

        def ordered(path):
            for thing in sorted(inside.get(path, []), key=lambda thing: thing.at):
                yield thing
                yield from ordered(thing.path)

        every = list(ordered("/org/a11y/atspi/accessible/root"))
        if not every:
            raise NotYet("The window tells AT-SPI nothing yet. Does it draw?")
        return every


def listed(things):
    """Labels as a message shows them: each once."""
    labels = [f"“{thing.label}”" for thing in things if thing.label]
    return ", ".join(dict.fromkeys(labels)) or "none"


def only(every, label, kind, fits):
    """The one thing of a kind that has a label."""
    of_kind = [thing for thing in every if fits(thing)]
    found = [thing for thing in of_kind if thing.label == label]
    if not found:
        raise NotYet(f"No {kind} is labeled “{label}”. Take a label that is there: {listed(of_kind)}.")
    if len(found) > 1:
        raise NotYet(f"“{label}” is the label of more than one {kind}: name it by the text beside it.")
    return found[0]


def field(every, label):
    return only(every, label, "place to type", Thing.is_field)


def pressable(every, label):
    return only(every, label, "word to press", Thing.is_pressable)


def pressable_before(every, text):
    places = [at for at, thing in enumerate(every) if thing.label == text]
    if len(places) != 1:
        raise NotYet(f"“{text}” is in the window {len(places)} times, not once. There is: {listed(every)}.")
    before = every[places[0] - 1]
    if not before.is_pressable():
        raise NotYet(f"What is before “{text}” can't be pressed: {listed([before])}. Name another text.")
    return before


def window_size():
    width, height = os.environ["WINDOW_SIZE"].split("x")
    return int(width), int(height)


def in_sight(every, thing):
    """From where to where, downward, the panel of a thing is seen: as far as its scroll bar goes.
    What is beyond has places, too, but something else is seen there."""
    bars = [other.extents() for other in every if other.panel == thing.panel and other.role == SCROLL_BAR]
    upright = [(height, y) for _, y, width, height in bars if height > width]
    height, top = max(upright, default=(window_size()[1], 0))
    return top, top + height


def scrolled(every, thing, room=0):
    """Scrolls until all of a thing is seen, and some room below it."""
    _, y, _, height = thing.extents()
    top, bottom = in_sight(every, thing)
    if not top <= y <= y + height + room <= bottom:
        thing.scroll_here()
        raise NotYet(f"“{thing.label}” is at {y}, where it is not seen, and can't be scrolled to {top}..{bottom}.")


def middle(window, find, label):
    """The middle of a thing once it is in sight, at rest and not grayed out."""
    every = window.things()
    frame = every[0].extents()[2:]
    if frame != window_size():
        raise NotYet(f"AT-SPI takes the window for {frame}, the display for {window_size()}. Is it scaled?")
    thing = find(every, label)
    scrolled(every, thing)
    if not thing.has(ENABLED):
        raise NotYet(f"“{thing.label}” is gray: do first what it needs.")
    place = thing.extents()
    time.sleep(0.05)
    if find(window.things(), label).extents() != place:
        raise NotYet(f"“{thing.label}” does not come to rest.")
    x, y, width, height = place
    return f"{x + width // 2} {y + height // 2}"


def bring(window, label):
    every = window.things()
    table = only(every, label, "table", lambda thing: thing.role == TABLE)
    top, bottom = in_sight(every, table)
    scrolled(every, table, (bottom - top) // 4)


def focused(window, label):
    every = window.things()
    if not field(every, label).has(FOCUSED):
        where = listed(thing for thing in every if thing.has(FOCUSED))
        raise NotYet(f"The keyboard is at {where}, not at “{label}”. Is something over it?")


def holds(window, label, text):
    typed = field(window.things(), label).text()
    if typed != text:
        raise NotYet(f"“{label}” holds “{typed}”, not “{text}”. Did something else take the keys?")


def sees(window, text):
    every = window.things()
    if not any(text in thing.label for thing in every):
        raise NotYet(f"“{text}” is not in the window. There is: {listed(every)}.")


def gone(window, label):
    if any(thing.is_field() and thing.label == label for thing in window.things()):
        raise NotYet(f"“{label}” is still there. Was it answered?")


def labels(window):
    return "\n".join(thing.label for thing in window.things() if thing.label)


def named(window, least):
    """All that can be pressed or typed on has a label, and no two places to type have the same."""
    can_be = [thing for thing in window.things() if thing.role != SCROLL_BAR]
    used = [thing for thing in can_be if thing.is_field() or thing.is_pressable()]
    if len(used) < int(least):
        raise NotYet(f"Only {len(used)} things can be used, not {least}. Is the window drawn?")
    nameless = [f"role {thing.role} at {thing.extents()}" for thing in used if not thing.label]
    if nameless:
        raise NotYet(f"No label, so a reader of the screen is silent: {'; '.join(nameless)}.")
    fields = [thing.label for thing in used if thing.is_field()]
    twice = {label for label in fields if fields.count(label) > 1}
    if twice:
        raise NotYet(f"Two places to type are called the same: {', '.join(sorted(twice))}.")
    return f"{len(used)} have a label"


ORDERS = {
    "place": lambda window, label: middle(window, pressable, label),
    "place-before": lambda window, text: middle(window, pressable_before, text),
    "field": lambda window, label: middle(window, field, label),
    "bring": bring,
    "focused": focused,
    "holds": holds,
    "sees": sees,
    "gone": gone,
    "labels": labels,
    "named": named,
}


def main():
    order = ORDERS.get(sys.argv[1]) if len(sys.argv) > 1 else None
    if order is None:
        sys.exit(__doc__)
    until = time.monotonic() + float(os.environ.get("HAND_SECONDS", "30"))
    while True:
        try:
            answer = order(Window(int(os.environ["WINDOW_PROCESS"])), *sys.argv[2:])
            break
        except NotYet as why:
            said = str(why)
        except GLib.Error as error:
            # What was found is gone by the time it is asked for its place, or the bus is not up yet.
            said = f"AT-SPI does not answer ({error.message}). {HINT}"
        if time.monotonic() > until:
            sys.exit(said)
        time.sleep(0.05)
    if answer:
        print(answer)


main()
