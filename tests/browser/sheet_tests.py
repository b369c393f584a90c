"""The bench sheet in a browser, as its user has it: a file, opened.

Oracle: what `idlepoint readings --at ... --json` prints, the browser's own boxes and logs, pdfinfo.
Run by ctest (tests/browser/CMakeLists.txt) with IDLEPOINT_PROGRAM and IDLEPOINT_SOURCE_DIR set.
"""

import base64
import concurrent.futures
import json
import os
import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest

import browser

PROGRAM = os.environ["IDLEPOINT_PROGRAM"]
NETLISTS = pathlib.Path(os.environ["IDLEPOINT_SOURCE_DIR"]) / "netlists"
HERE = pathlib.Path(__file__).parent
STAGES = sorted(path.stem for path in NETLISTS.glob("*.stage"))
# One trimmer, two trimmers, two in the largest stage.
TURNED = {"drystone-40w": ["VR201"], "quarry-30w": ["VR601", "VR602"],
          "cairnfell-120w": ["VR501", "VR502"]}
A4_POINTS = (595, 842)
# Width of the text of an A4 page at 96 dots an inch, margins of 12 mm.
PRINTED_WIDTH = 702


def ask(*words):
    done = subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        raise AssertionError(f"{words}: status {done.returncode}\n{done.stderr}")
    return done.stdout


def write_sheet(folder, name, *words):
    page = pathlib.Path(folder) / f"{name}.html"
    ask("sheet", *words, "-o", str(page))
    return page


def stage_file(name):
    return str(NETLISTS / f"{name}.stage")


class Sheets(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = cls.enterClassContext_(tempfile.TemporaryDirectory())
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            made = {name: pool.submit(write_sheet, cls.folder, name, stage_file(name))
                    for name in STAGES}
            cls.pages = {name: one.result() for name, one in made.items()}
        cls.driver = cls.enterClassContext_(browser.chromium())

    @classmethod
    def enterClassContext_(cls, context):  # enterClassContext is of Python 3.11 and later
        entered = context.__enter__()
        cls.addClassCleanup(context.__exit__, None, None, None)
        return entered

    def open(self, page, **size):
        browser.open_page(self.driver, page, **size)

    def script(self, text, *arguments):
        return self.driver.execute_script(text, *arguments)

    def assert_nothing_cut(self, width):
        """No element reaches beyond the page's right edge."""
        beyond = self.script("""
          return Array.from(document.querySelectorAll("main, main *"))
            .filter((one) => one.getClientRects().length > 0)
            .map((one) => [one.tagName, one.className.baseVal ?? one.className,
                           one.textContent.slice(0, 30), one.getBoundingClientRect().right])
            .filter(([, , , right]) => right > arguments[0] + 0.5);""", width)
        self.assertEqual(beyond, [])

    def test_every_demo_stage_opens_quietly_and_asks_nothing_of_a_network(self):
        for name in STAGES:
            with self.subTest(stage=name):
                self.open(self.pages[name])
                self.assertEqual(self.driver.get_log("browser"), [])
                asked = [url for url in browser.requests(self.driver) if not url.startswith("file://")]
                self.assertEqual(asked, [])
                self.assertEqual(self.script(
                    "return document.querySelectorAll('section').length > 5"), True)

    def test_a_page_is_small_enough_for_a_phone(self):
        for name in STAGES:
            with self.subTest(stage=name):
                self.assertLess(self.pages[name].stat().st_size, 1_500_000)

    def turn(self, places):
        for trimmer, travel in places.items():
            self.script("""
              const slider = document.querySelector(`input[data-trimmer="${arguments[0]}"]`);
              slider.value = arguments[1];
              slider.dispatchEvent(new Event("input"));""", trimmer, travel)
        return self.script("""
          return Array.from(document.querySelectorAll(".following tbody tr")).map((row) =>
            Array.from(row.querySelectorAll("[data-value]"))
              .map((cell) => Number(cell.dataset.value)));""")

    def test_the_sliders_move_the_figures_to_what_readings_prints(self):
        for name, trimmers in TURNED.items():
            self.open(self.pages[name])
            for share in (0.137, 0.415, 0.58):
                places = {trimmer: share for trimmer in trimmers}
                with self.subTest(stage=name, places=places):
                    self.check_turned(name, places)

    def check_turned(self, name, places):
        at = [word for trimmer, travel in places.items()
              for word in ("--at", f"{trimmer}={100 * travel:.6f}%")]
        done = subprocess.run([PROGRAM, "readings", stage_file(name), *at, "--json"],
                              capture_output=True, text=True, check=False)
        shown = self.turn(places)
        truth = json.loads(done.stdout)
        if "runaway" in truth:
            self.assertTrue(all(len(row) < 2 for row in shown))
            return
        for row, cold, warm in zip(shown, truth["cold_readings"], truth["readings"], strict=True):
            for value, reading in zip(row, (cold, warm), strict=True):
                tenth = 0.1 * (reading["high"] - reading["low"]) + 2e-5
                self.assertAlmostEqual(value, reading["value"], delta=tenth, msg=reading["name"])

    def boxes(self):
        return self.script((HERE / "ladder_boxes.js").read_text(encoding="utf-8"))

    def test_the_heights_of_the_ladder_are_the_volts_of_the_points(self):
        for name in STAGES:
            with self.subTest(stage=name):
                self.open(self.pages[name])
                truth = json.loads(ask("readings", stage_file(name), "--json"))
                drawing = self.script("return JSON.parse(document.getElementById('answers')"
                                      ".textContent).channels[0].drawing")
                self.turn({part["name"]: part["travel"] for part in drawing["parts"]
                           if "travel" in part})
                for picture in self.boxes():
                    self.check_heights(picture["rows"], truth["nodes"])

    def check_heights(self, rows, volts):
        for row in rows:
            within = 1e-3 + 2e-3 * abs(volts[row["node"]])
            self.assertAlmostEqual(row["volts"], volts[row["node"]], delta=within, msg=row["node"])
        for upper, lower in zip(rows, rows[1:]):
            self.assertGreaterEqual(upper["volts"], lower["volts"])
            self.assertGreater(lower["y"], upper["y"] + 8)
        # On the ruler: the same pixels for the same volts.
        top, bottom = rows[0], rows[-1]
        pixels_per_volt = (bottom["true_y"] - top["true_y"]) / (top["volts"] - bottom["volts"])
        for row in rows:
            expected = top["true_y"] + (top["volts"] - row["volts"]) * pixels_per_volt
            self.assertAlmostEqual(row["true_y"], expected, delta=0.2)

    def test_no_label_of_a_ladder_touches_another_or_a_line(self):
        for name in STAGES:
            with self.subTest(stage=name):
                for width in (360, 1100):
                    with self.subTest(width=width):
                        self.open(self.pages[name], width=width)
                        for picture in self.boxes():
                            self.check_apart(picture)

    def check_apart(self, picture):
        touching = []
        labels = picture["labels"]
        for index, label in enumerate(labels):
            inside = (label["x0"] >= -0.5 and label["x1"] <= picture["width"] + 0.5 and
                      label["y0"] >= -0.5 and label["y1"] <= picture["height"] + 0.5)
            if not inside:
                touching.append((label["words"], "the edge"))
            touching += [(label["words"], other["words"]) for other in labels[index + 1:]
                         if overlap(label, other)]
            touching += [(label["words"], bar["words"]) for bar in picture["bars"]
                         if overlap(label, bar)]
            touching += [(label["words"], fan["words"]) for fan in picture["fans"]
                         if overlap(label, fan) and label["x0"] > fan["x0"]]
        self.assertEqual(touching, [])

    def test_a_page_of_360_pixels_has_no_sideways_scroll(self):
        for name in STAGES:
            with self.subTest(stage=name):
                self.open(self.pages[name], width=360, height=740, mobile=True)
                self.assertLessEqual(self.script("return document.documentElement.scrollWidth"), 360)
                self.assert_nothing_cut(360)

    def test_it_prints_on_a4_with_nothing_cut(self):
        for name in STAGES:
            with self.subTest(stage=name):
                self.open(self.pages[name], width=PRINTED_WIDTH)
                self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
                browser.drawn(self.driver)
                self.assert_nothing_cut(PRINTED_WIDTH)
                self.check_pdf(name)

    def check_pdf(self, name):
        printed = self.driver.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True})
        path = pathlib.Path(self.folder) / f"{name}.pdf"
        path.write_bytes(base64.b64decode(printed["data"]))
        told = subprocess.run(["pdfinfo", str(path)], capture_output=True, text=True, check=True)
        size = re.search(r"Page size:\s+([\d.]+) x ([\d.]+) pts", told.stdout)
        for found, wanted in zip(size.groups(), A4_POINTS, strict=True):
            self.assertAlmostEqual(float(found), wanted, delta=1.5)
        pages = int(re.search(r"Pages:\s+(\d+)", told.stdout).group(1))
        self.assertLess(pages, 25)

    def test_two_channels_stand_side_by_side(self):
        page = write_sheet(self.folder, "both", stage_file("quarry-30w"),
                           stage_file("quarry-30w-right"))
        self.open(page)
        self.assertEqual(self.driver.get_log("browser"), [])
        heads = self.script("return Array.from(document.querySelectorAll('#readings thead th'))"
                            ".map((one) => one.textContent)")
        self.assertTrue(any(head.startswith("left") for head in heads))
        self.assertTrue(any(head.startswith("right") for head in heads))

    def test_a_substitute_is_compared_where_it_is_asked_for(self):
        page = write_sheet(self.folder, "substitute", stage_file("quarry-30w"),
                           "--substitute", "Q606=large-npn", "--substitute", "Q607=large-npn")
        self.open(page)
        self.assertIn("large-npn", self.script(
            "return document.getElementById('swap').textContent"))

    def test_markup_in_a_file_stays_text(self):
        markup = "<img src=x onerror=window.broken=1><script>window.broken=1</script>"
        stage = pathlib.Path(self.folder) / "markup.stage"
        text = (NETLISTS / "teasel-8w.stage").read_text(encoding="utf-8")
        text = re.sub(r'^stage ".*"', f'stage "{markup}</script><b>"', text, flags=re.M)
        shutil.copy(NETLISTS / "workshop.types", self.folder)
        stage.write_text(f"# {markup}\n" + text, encoding="utf-8")
        page = write_sheet(self.folder, "markup", str(stage))
        self.open(page)
        self.assertEqual(self.driver.get_log("browser"), [])
        self.assertIsNone(self.script("return window.broken || null"))
        self.assertEqual(self.script("return document.querySelectorAll('img, b img').length"), 0)
        self.assertIn(markup, self.script("return document.querySelector('h1').textContent"))
        self.assertIn(markup, self.driver.title)


def overlap(one, other):
    """True where two boxes share more than a hair."""
    hair = 0.3
    return (one["x0"] < other["x1"] - hair and other["x0"] < one["x1"] - hair and
            one["y0"] < other["y1"] - hair and other["y0"] < one["y1"] - hair)


if __name__ == "__main__":
    unittest.main(verbosity=2)
