"""What the installer finds and types in the invented plant room, for one unit of the demonstration.

Its relief valve is an ISO 4126-1 valve 1.2 m above the inlet of a unit that must never see more than 3.0 bar,
with 1.6 bar at rest.
"""

UNIT = "Reagent water, line 2"
INSTALLER = ("tamsin", "rinse the loop twice")
SUPERVISOR = ("ines", "read it before you sign")

GAUGE = {"instrument": "Test gauge 0 to 6 bar"}
METER = {"instrument": "Conductivity meter 2"}
TESTER = {"instrument": "Two-pole tester 1"}

# One row: (what to do, label, value, more). Labels are those on the screen.
SURVEY = [
    ("fill", "Data plate, order and documents agree", "Yes", {}),
    ("fill", "Serial number on the plate", "VCL-0112", {}),
    ("fill", "Maker's manual at hand", "Yes", {}),
    ("fill", "All instruments within their calibration date", "Yes", {}),
    ("fill", "Everybody affected has been told", "Yes", {}),
    ("fill", "Who else is on site", "nobody", {}),
    ("fill", "Floor and terminals dry", "Yes", {}),
]
ISOLATOR = [
    ("fill", "What isolates the unit", "Plug and socket", {}),
    ("fill", "What it breaks", "Line and neutral", {}),
    ("fill", "Every user can reach it", "Yes", {}),
    ("fill", "In sight of the unit", "Yes", {}),
    ("fill", "Can be locked in OFF", "Yes", {}),
    ("fill", "OFF clearly marked", "Yes", {}),
    ("fill", "Labelled as this unit's isolator", "Yes", {}),
    ("fill", "Rated current of the isolator", "16", {}),
]
ISOLATION = [
    ("fill", "Other sources of supply", "Looked for, none found", {}),
    ("fill", "Locked off with your own lock", "Yes", {}),
    ("fill", "Caution tag in place", "Yes", {}),
    ("now", "Locked at", None, {}),
    ("fill", "Tester on a known live source, before", "231", TESTER),
    ("now", "Tester proved at", None, {}),
    ("fill", "Line to neutral", "0", TESTER),
    ("fill", "Line to earth", "0", TESTER),
    ("fill", "Neutral to earth", "0", TESTER),
    ("now", "Tested dead at", None, {}),
    ("fill", "Tester on the same live source, after", "230", TESTER),
    ("now", "Tester proved again at", None, {}),
    ("fill", "Water closed, and locked or tagged", "Yes", {}),
    ("fill", "Drain open at the lowest point", "Yes", {}),
    ("fill", "No more water comes out", "Yes", {}),
    ("fill", "Pressure left on the gauge", "0", GAUGE),
]
EARTHING = [
    ("fill", "Length of the conductor, one way", "12", {}),
    ("fill", "Cross-section", "1,5", {}),
    ("fill", "Kind of conductor", "Flexible cord (class 5)", {}),
    ("fill", "Temperature of the conductor", "20", {}),
    ("fill", "Test leads nulled", "Yes", {}),
    ("fill", "Measured resistance", "0,17", {"instrument": "Continuity tester 4"}),
    ("fill", "Reading steady while the cable is moved", "Yes", {}),
    ("fill", "Conductor and connections sound", "Yes", {}),
]
RELIEF = [
    ("fill", "Standard on the valve", "ISO 4126 (safety valve)", {}),
    ("fill", "Height of the valve above the unit's inlet", "1.2", {}),
    ("fill", "Highest pressure behind the regulator at no flow", "1.6", GAUGE),
    ("fill", "Set pressure marked on the valve", "2,5", {}),
    ("fill", "Measured opening pressure", "246 kPa", GAUGE),
    ("fill", "How the discharge capacity is known", "Printed or certified for the valve", {}),
    ("fill", "Certified discharge capacity for water", "72", {}),
    ("fill", "Flow coefficient Kv of the regulator, fully open", "1.6", {}),
    ("fill", "Nothing can shut off or narrow the line", "Yes", {}),
    ("fill", "Discharge ends visibly above a drain", "Yes", {}),
    ("fill", "Air gap above the drain", "60", {}),
]
FLUSH_BEGINS = [
    ("fill", "Leaks after filling", "None", {}),
    ("fill", "Flow during the flush", "2", {"instrument": "Clamp-on flow meter"}),
    ("fill", "Conductivity of the water that flows in", "5", METER),
    ("fill", "Conductivity at the start", "300", METER),
    ("now", "Flush started at", None, {}),
]
FLUSH_READINGS = ["18,3", "18.2", "18.1"]
FLUSH_ENDS = [
    ("now", "Flush ended at", None, {}),
    ("fill", "Volume sent to drain", "50", {}),
]
QUALITY = [
    ("fill", "Where it is measured", "In the line, flowing, closed to air", {}),
    ("fill", "Conductivity or resistivity shown", "15.5", {"unit": "MΩ·cm", **METER}),
    ("fill", "Water temperature", "21.3", {"instrument": "Immersion thermometer 5"}),
    ("fill", "How the meter treats temperature", "Pure-water compensation to 25 °C", {}),
    ("fill", "Total organic carbon", "30", {"instrument": "Organic carbon analyser"}),
    ("fill", "Final filter near the outlet", "0.2 µm or finer, fitted", {}),
    ("fill", "Microbiology sample taken on", "2026-11-25", {}),
]
