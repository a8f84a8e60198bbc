// @ts-nocheck
// Generated from checks/units.py by checks.generate: change that, then run `python -m checks.generate`.

/** Label, dimension, factor and offset to the dimension's base unit. */
export const units = {
  "1": ["", "number", 1.0, 0.0],
  "%": ["%", "number", 0.01, 0.0],
  "uS/cm": ["µS/cm", "conductivity", 1.0, 0.0],
  "mS/m": ["mS/m", "conductivity", 10.0, 0.0],
  "mS/cm": ["mS/cm", "conductivity", 1000.0, 0.0],
  "Mohm cm": ["MΩ·cm", "resistivity", 1.0, 0.0],
  "kohm cm": ["kΩ·cm", "resistivity", 0.001, 0.0],
  "ohm": ["Ω", "resistance", 1.0, 0.0],
  "mohm": ["mΩ", "resistance", 0.001, 0.0],
  "kohm": ["kΩ", "resistance", 1000.0, 0.0],
  "Mohm": ["MΩ", "resistance", 1000000.0, 0.0],
  "V": ["V", "voltage", 1.0, 0.0],
  "A": ["A", "current", 1.0, 0.0],
  "mA": ["mA", "current", 0.001, 0.0],
  "kA": ["kA", "current", 1000.0, 0.0],
  "degC": ["°C", "temperature", 1.0, 0.0],
  "degF": ["°F", "temperature", 0.5555555555555556, -17.77777777777778],
  "K": ["K", "temperature", 1.0, -273.15],
  "1/K": ["1/K", "per_kelvin", 1.0, 0.0],
  "bar": ["bar", "pressure", 1.0, 0.0],
  "mbar": ["mbar", "pressure", 0.001, 0.0],
  "kPa": ["kPa", "pressure", 0.01, 0.0],
  "MPa": ["MPa", "pressure", 10.0, 0.0],
  "psi": ["psi", "pressure", 0.06894757293168362, 0.0],
  "kN/m**2": ["kN/m²", "pressure", 0.01, 0.0],
  "mg/L": ["mg/L", "concentration", 1.0, 0.0],
  "g/L": ["g/L", "concentration", 1000.0, 0.0],
  "ug/L": ["µg/L", "concentration", 0.001, 0.0],
  "dGH": ["°dH", "concentration", 17.848, 0.0],
  "dfH": ["°fH", "concentration", 10.0, 0.0],
  "grain/gallon": ["gr/gal", "concentration", 17.118061045270945, 0.0],
  "eq/L": ["eq/L", "mole / meter ** 3", 1000.0, 0.0],
  "ppm": ["ppm", "number", 1e-06, 0.0],
  "NTU": ["NTU", "turbidity_unit", 1.0, 0.0],
  "%/min": ["%/min", "1 / second", 0.00016666666666666666, 0.0],
  "CFU/mL": ["CFU/mL", "colonies", 1.0, 0.0],
  "CFU/L": ["CFU/L", "colonies", 0.001, 0.0],
  "L/min": ["L/min", "flow", 1.0, 0.0],
  "L/h": ["L/h", "flow", 0.016666666666666666, 0.0],
  "mL/min": ["mL/min", "flow", 0.001, 0.0],
  "m**3/h": ["m³/h", "flow", 16.666666666666668, 0.0],
  "gpm": ["gal/min", "flow", 3.785411784, 0.0],
  "um": ["µm", "length", 0.001, 0.0],
  "mm": ["mm", "length", 1.0, 0.0],
  "cm": ["cm", "length", 10.0, 0.0],
  "m": ["m", "length", 1000.0, 0.0],
  "mm**2": ["mm²", "area", 1.0, 0.0],
  "m**2": ["m²", "area", 1000000.0, 0.0],
  "kg": ["kg", "mass", 1.0, 0.0],
  "g": ["g", "mass", 0.001, 0.0],
  "mg": ["mg", "mass", 1e-06, 0.0],
  "lb": ["lb", "mass", 0.45359237, 0.0],
  "mL": ["mL", "volume", 0.001, 0.0],
  "L": ["L", "volume", 1.0, 0.0],
  "gallon": ["gal", "volume", 3.785411784, 0.0],
  "m**3": ["m³", "volume", 1000.0, 0.0],
  "ms": ["ms", "time", 0.001, 0.0],
  "s": ["s", "time", 1.0, 0.0],
  "min": ["min", "time", 60.0, 0.0],
  "h": ["h", "time", 3600.0, 0.0],
  "d": ["d", "time", 86400.0, 0.0],
  "month": ["months", "time", 2629800.0, 0.0],
  "m/s": ["m/s", "velocity", 1.0, 0.0],
  "W": ["W", "gram * meter ** 2 / second ** 3", 1000.0, 0.0],
  "mJ/cm**2": ["mJ/cm²", "gram / second ** 2", 10000.0, 0.0],
  "J/m**2": ["J/m²", "gram / second ** 2", 1000.0, 0.0],
  "mg min/L": ["mg·min/L", "gram * second / meter ** 3", 60.0, 0.0],
  "kg/m**3": ["kg/m³", "concentration", 1000.0, 0.0],
  "mPa s": ["mPa·s", "viscosity", 1.0, 0.0],
  "pH": ["pH", "number", 1.0, 0.0],
};

/** How a unit is written for a reader. @param {string} unit @returns {string} */
export const unitLabel = (unit) => units[unit]?.[0] ?? written[unit] ?? unit;

/** How units are written that nobody chooses. */
const written = {"S cm**2/eq": "S·cm²/eq", "g/cm**3": "g/cm³", "mW/cm**2": "mW/cm²", "ohm/km": "Ω/km"};

/** Letters that are written in another way before a unit is looked up. */
export const letters = {"\u00b5": "u", "\u03bc": "u", "\u03a9": "ohm", "\u2126": "ohm", "\u00b0": "deg", "\u00b7": "", "\u22c5": "", "*": "", "\u00b2": "2", "\u00b3": "3", "^": ""};

/** What may be typed for a unit. */
export const spellings = {"1": "1", "%": "%", "percent": "%", "uS/cm": "uS/cm", "umho/cm": "uS/cm", "mS/m": "mS/m", "mS/cm": "mS/cm", "Mohmcm": "Mohm cm", "Mohm.cm": "Mohm cm", "megohmcm": "Mohm cm", "megohm-cm": "Mohm cm", "Mohm-cm": "Mohm cm", "kohmcm": "kohm cm", "kohm.cm": "kohm cm", "ohm": "ohm", "ohms": "ohm", "mohm": "mohm", "milliohm": "mohm", "kohm": "kohm", "Mohm": "Mohm", "megohm": "Mohm", "V": "V", "volt": "V", "A": "A", "amp": "A", "mA": "mA", "kA": "kA", "degC": "degC", "C": "degC", "degF": "degF", "F": "degF", "K": "K", "kelvin": "K", "1/K": "1/K", "/K": "1/K", "K-1": "1/K", "bar": "bar", "mbar": "mbar", "kPa": "kPa", "MPa": "MPa", "psi": "psi", "kN/m2": "kN/m**2", "mg/L": "mg/L", "g/L": "g/L", "ug/L": "ug/L", "ppb": "ug/L", "dGH": "dGH", "degdH": "dGH", "dH": "dGH", "dfH": "dfH", "degfH": "dfH", "fH": "dfH", "grain/gallon": "grain/gallon", "gr/gal": "grain/gallon", "gpg": "grain/gallon", "eq/L": "eq/L", "ppm": "ppm", "NTU": "NTU", "%/min": "%/min", "CFU/mL": "CFU/mL", "CFU/L": "CFU/L", "L/min": "L/min", "lpm": "L/min", "L/h": "L/h", "mL/min": "mL/min", "m3/h": "m**3/h", "gpm": "gpm", "gal/min": "gpm", "um": "um", "mm": "mm", "cm": "cm", "m": "m", "metre": "m", "meter": "m", "mm2": "mm**2", "sqmm": "mm**2", "m2": "m**2", "sqm": "m**2", "kg": "kg", "g": "g", "mg": "mg", "lb": "lb", "lbs": "lb", "pound": "lb", "mL": "mL", "L": "L", "litre": "L", "liter": "L", "gallon": "gallon", "gal": "gallon", "m3": "m**3", "ms": "ms", "s": "s", "sec": "s", "min": "min", "h": "h", "hour": "h", "d": "d", "day": "d", "days": "d", "month": "month", "months": "month", "mo": "month", "m/s": "m/s", "W": "W", "watt": "W", "mJ/cm2": "mJ/cm**2", "J/m2": "J/m**2", "mgmin/L": "mg min/L", "kg/m3": "kg/m**3", "mPas": "mPa s", "cP": "mPa s", "pH": "pH"};

/** The same in lower case, where that still names one unit alone. */
export const lowered = {"1": "1", "%": "%", "percent": "%", "us/cm": "uS/cm", "umho/cm": "uS/cm", "ms/m": "mS/m", "ms/cm": "mS/cm", "mohmcm": "Mohm cm", "mohm.cm": "Mohm cm", "megohmcm": "Mohm cm", "megohm-cm": "Mohm cm", "mohm-cm": "Mohm cm", "kohmcm": "kohm cm", "kohm.cm": "kohm cm", "ohm": "ohm", "ohms": "ohm", "milliohm": "mohm", "kohm": "kohm", "megohm": "Mohm", "v": "V", "volt": "V", "a": "A", "amp": "A", "ma": "mA", "ka": "kA", "degc": "degC", "c": "degC", "degf": "degF", "f": "degF", "k": "K", "kelvin": "K", "1/k": "1/K", "/k": "1/K", "k-1": "1/K", "bar": "bar", "mbar": "mbar", "kpa": "kPa", "mpa": "MPa", "psi": "psi", "kn/m2": "kN/m**2", "mg/l": "mg/L", "g/l": "g/L", "ug/l": "ug/L", "ppb": "ug/L", "dgh": "dGH", "degdh": "dGH", "dh": "dGH", "dfh": "dfH", "degfh": "dfH", "fh": "dfH", "grain/gallon": "grain/gallon", "gr/gal": "grain/gallon", "gpg": "grain/gallon", "eq/l": "eq/L", "ppm": "ppm", "ntu": "NTU", "%/min": "%/min", "cfu/ml": "CFU/mL", "cfu/l": "CFU/L", "l/min": "L/min", "lpm": "L/min", "l/h": "L/h", "ml/min": "mL/min", "m3/h": "m**3/h", "gpm": "gpm", "gal/min": "gpm", "um": "um", "mm": "mm", "cm": "cm", "m": "m", "metre": "m", "meter": "m", "mm2": "mm**2", "sqmm": "mm**2", "m2": "m**2", "sqm": "m**2", "kg": "kg", "g": "g", "mg": "mg", "lb": "lb", "lbs": "lb", "pound": "lb", "ml": "mL", "l": "L", "litre": "L", "liter": "L", "gallon": "gallon", "gal": "gallon", "m3": "m**3", "ms": "ms", "s": "s", "sec": "s", "min": "min", "h": "h", "hour": "h", "d": "d", "day": "d", "days": "d", "month": "month", "months": "month", "mo": "month", "m/s": "m/s", "w": "W", "watt": "W", "mj/cm2": "mJ/cm**2", "j/m2": "J/m**2", "mgmin/l": "mg min/L", "kg/m3": "kg/m**3", "mpas": "mPa s", "cp": "mPa s", "ph": "pH"};
