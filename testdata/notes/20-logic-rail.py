"""Every value of the note 20-logic-rail, computed from Kirchhoff's and Ohm's
laws and the definition of thermal resistance, with exact fractions.

Temperatures in kelvin: 0 °C is 273.15 K (BIPM, The International System of
Units, 9th edition, 2.3.1).

Preferred values are looked up by hand in IEC 60063 (from memory):
  E96 about 3.75: ... 3.57 3.65 3.74 | 3.83 3.92 4.02 ...
"""

from table import F, Table

t = Table({
    "Vin": ("4.75", "5", "5.25"),
    "Vref": ("0.788", "0.8", "0.812"),
    "Iout": ("8e-3", "60e-3", "280e-3"),
    "Ta": ("-20", "25", "60"),
    "Rbot": ("11.88e3", "12e3", "12.12e3"),
    "Rtop": ("37.026e3", "37.4e3", "37.774e3"),
    "Cout": ("8e-6", "10e-6", "12e-6"),
})


def note(v, margin, s):
    zero_celsius = F("273.15")

    given = "given"
    Vin = v("Vin", s["Vin"], "V", given + ": usual of 4.75 V, 5 V, 5.25 V")
    Vref = v("Vref", s["Vref"], "V", given + ": typical of 788 mV, 800 mV, 812 mV")
    Iout = v("Iout", s["Iout"], "A", given + ": usual of 8 mA, 60 mA, 280 mA")
    Vdrop = v("Vdrop", F("450e-3"), "V", given + ": 450 mV")
    Iq = v("Iq", F("90e-6"), "A", given + ": 90 µA")
    Ifb = v("Ifb", F("50e-9"), "A", given + ": 50 nA")
    Ta = v("Ta", s["Ta"] + zero_celsius, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    theta = v("θJA", F("62"), "K/W", given + ": a degree of difference is a kelvin")
    Tjmax = v("Tjmax", F("125") + zero_celsius, "K", "125 °C + 273.15 K")

    # Output voltage.
    Vwanted = v("Vwanted", F("3.3"), "V", given)
    Rbot = v("Rbot", s["Rbot"], "Ω", given + ": 12 kΩ, nominal of ±1 %")
    # 37.5 kΩ lies between 37.4 kΩ (0.27 % below) and 38.3 kΩ (2.1 % above).
    Rtop = v("Rtop", s["Rtop"], "Ω", "12 kΩ · (3.3 V/0.8 V - 1) = 37.5 kΩ; E96 has 37.4 and 38.3 there, the nearer is 37.4")

    # The pin takes its current from the node, which the reference holds: the
    # upper resistor carries the lower one's current and the pin's.
    i_top = Vref / Rbot + Ifb
    Vout = v("Vout", Vref + i_top * Rtop, "V", "0.8 V + (0.8 V/12 kΩ + 50 nA) · 37.4 kΩ")

    Vhead = v("Vhead", Vin - Vout - Vdrop, "V", "5 V - 3.295203 V - 0.45 V")

    Pd = v("Pd", (Vin - Vout) * Iout + Vin * Iq, "W", "(5 V - 3.295203 V) · 60 mA + 5 V · 90 µA")
    Tj = v("Tj", Ta + Pd * theta, "K", "298.15 K + Pd · 62 K/W")
    limit = Tjmax - 15

    Pmax = v("Pmax", (limit - Ta) / theta, "W", "(110 °C - 25 °C)/(62 K/W) = 85/62 W")
    Imax = v("Imax", Pmax / (Vin - Vout), "A", "85/62 W over 5 V - 3.295203 V")
    v("η", Vout * Iout / (Vin * (Iout + Iq)), "1", "out 3.295203 V · 60 mA, in 5 V · 60.09 mA")

    margin(min(Vout - F("3.135"), F("3.465") - Vout), "V", "the nearer end of 3.135 V and 3.465 V: 3.295203 V - 3.135 V")
    margin(Vhead - F("200e-3"), "V", "headroom above 200 mV: 1.254797 V - 0.2 V")
    margin(limit - Tj, "K", "below the limit less 15 K: 383.15 K - 304.52 K")
    margin(Imax - Iout, "A", "load allowed above the load: 804.2 mA - 60 mA")

    # On the schematic: what a rating leaves of the share that may be used.
    v("Cout", s["Cout"], "F", given + ": 10 µF, nominal of ±20 %")
    margin(F("0.6") - (Vout - Vref) ** 2 / Rtop / F("63e-3"), "1", "60 % less (3.295203 V - 0.8 V)²/37.4 kΩ = 166.5 µW of 63 mW")
    margin(F("0.6") - Vref ** 2 / Rbot / F("63e-3"), "1", "60 % less (0.8 V)²/12 kΩ = 53.3 µW of 63 mW")
    margin(F("0.5") - Vout / 10, "1", "50 % less 3.295203 V of 10 V")


t.run(note)
t.write()
