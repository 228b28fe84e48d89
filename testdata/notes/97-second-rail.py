"""Every value of the note 97-second-rail, from Kirchhoff's and Ohm's laws and the
definition of thermal resistance, with exact fractions.

Both rails have the circuit of 20-logic-rail: 12 kΩ below, 37.4 kΩ above, a
reference of 0.8 V, which each has by itself; the 5 V and the air are the same.
"""

from table import F, Table

t = Table({
    "Vin": ("4.75", "5", "5.25"),
    "Ta": ("-20", "25", "60"),
    "Iout": ("1e-3", "30e-3", "120e-3"),
    "Vref": ("0.788", "0.8", "0.812"),
    "Rbot": ("11.88e3", "12e3", "12.12e3"),
    "Rtop": ("37.026e3", "37.4e3", "37.774e3"),
    "logic Iout": ("8e-3", "60e-3", "280e-3"),
    "logic Vref": ("0.788", "0.8", "0.812"),
    "logic Rbot": ("11.88e3", "12e3", "12.12e3"),
    "logic Rtop": ("37.026e3", "37.4e3", "37.774e3"),
})


def note(v, margin, s):
    zero_celsius = F("273.15")

    Vin = v("rail.Vin", s["Vin"], "V", "given: that of the logic")
    Ta = v("rail.Ta", s["Ta"] + zero_celsius, "K", "25 °C + 273.15 K: that of the logic")
    Iout = v("rail.Iout", s["Iout"], "A", "given: usual of 1 mA, 30 mA, 120 mA")
    theta = v("rail.θJA", F("180"), "K/W", "given: a degree of difference is a kelvin")

    def regulator(prefix, load):
        """Its output and its loss."""
        Vref, Rtop = s[prefix + "Vref"], s[prefix + "Rtop"]
        Vout = Vref + (Vref / s[prefix + "Rbot"] + F("50e-9")) * Rtop
        return Vout, (Vin - Vout) * load + Vin * F("90e-6")

    Vout, Pd = regulator("", Iout)
    limit = F("125") - 15 + zero_celsius
    Imax = (limit - Ta) / theta / (Vin - Vout)
    margin(min(Vout - F("3.135"), F("3.465") - Vout), "V", "the nearer end of 3.135 V and 3.465 V: 3.295203 V - 3.135 V")
    margin(Vin - Vout - F("0.45") - F("0.2"), "V", "5 V - 3.295203 V - 0.45 V - 0.2 V")
    margin(limit - (Ta + Pd * theta), "K", "110 °C - 25 °C - 51.59 mW · 180 K/W")
    margin(Imax - Iout, "A", "85/180 W over 5 V - 3.295203 V, less 30 mA")
    margin(F("0.6") - (Vout - s["Vref"]) ** 2 / s["Rtop"] / F("63e-3"), "1", "60 % less (3.295203 V - 0.8 V)²/37.4 kΩ of 63 mW")
    margin(F("0.6") - s["Vref"] ** 2 / s["Rbot"] / F("63e-3"), "1", "60 % less (0.8 V)²/12 kΩ of 63 mW")
    margin(F("0.5") - Vout / 10, "1", "50 % less 3.295203 V of 10 V")

    logic_Vout, logic_Pd = regulator("logic ", s["logic Iout"])
    dV = v("dV", logic_Vout - Vout, "V", "3.295203 V - 3.295203 V")
    v("Ibus", s["logic Iout"] + Iout, "A", "60 mA + 30 mA")
    P = v("P", logic_Pd + Pd, "W", "(5 V - 3.295203 V) · 90 mA + 2 · 5 V · 90 µA")
    margin(F("0.3") - abs(dV), "V", "300 mV less the difference")
    margin(1 - P, "W", "1 W - 154.3 mW")


t.run(note)
t.write()
