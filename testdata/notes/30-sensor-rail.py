"""Every value of the note 30-sensor-rail, computed from Kirchhoff's and Ohm's
laws, the series resonant circuit, the definitions of thermal resistance and of
the decibel, and straight lines between datasheet points, in decimals of 40
digits.

Temperatures in kelvin: 0 °C is 273.15 K (BIPM, The International System of
Units, 9th edition, 2.3.1).

Preferred values are looked up by hand in IEC 60063 (from memory):
  E96 about 2.75: ... 2.67 2.74 | 2.80 2.87 ...
  E12 about 0.82: ... 0.68 0.82 | 1.0 1.2 ...
"""

from decimal import Decimal as D

from table import PI, Table

t = Table({
    "Vin": ("4.75", "5", "5.25"),
    "fsw": ("450e3", "500e3", "550e3"),
    "Iload": ("3e-3", "25e-3", "90e-3"),
    "Ta": ("-20", "25", "60"),
    "Vref": ("0.788", "0.8", "0.812"),
    "Rbot": ("9.9e3", "10e3", "10.1e3"),
    "Rtop": ("27.126e3", "27.4e3", "27.674e3"),
    "Lcable": ("0.64e-6", "0.8e-6", "0.96e-6"),
    "Rcable": ("60e-3", "80e-3", "120e-3"),
    "Cin": ("9e-6", "10e-6", "11e-6"),
    "Rdamp": ("0.95", "1", "1.05"),
    "Cout": ("4.23e-6", "4.7e-6", "5.17e-6"),
    "Resr": ("3e-3", "5e-3", "10e-3"),
}, level={"rail.Missing", "plugged.Overshoot", "room.Lost"})

pi = D(PI.numerator) / D(PI.denominator)
zero_celsius = D("273.15")


def straight(x, x1, y1, x2, y2):
    """The straight line through two points."""
    return (y1 * (x2 - x) + y2 * (x - x1)) / (x2 - x1)


def note(v, margin, s):
    s = {name: D(x.numerator) / D(x.denominator) for name, x in s.items()}
    given = "given"
    Vin = v("Vin", s["Vin"], "V", given + ": usual of 4.75 V, 5 V, 5.25 V")
    Vrip = v("Vrip", D("40e-3"), "V", given + ": 40 mV")
    fsw = v("fsw", s["fsw"], "Hz", given + ": typical of 450 kHz, 500 kHz, 550 kHz")
    Iload = v("Iload", s["Iload"], "A", given + ": usual of 3 mA, 25 mA, 90 mA")
    Ta = v("Ta", s["Ta"] + zero_celsius, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    Vref = v("Vref", s["Vref"], "V", given + ": typical of 788 mV, 800 mV, 812 mV")
    Ifb = v("Ifb", D("50e-9"), "A", given + ": 50 nA")
    Iq = v("Iq", D("60e-6"), "A", given + ": 60 µA")
    Vmax = v("Vmax", D("6.5"), "V", given)
    theta = v("θJA", D("180"), "K/W", given + ": a degree of difference is a kelvin")
    Tjmax = v("Tjmax", D("125") + zero_celsius, "K", "125 °C + 273.15 K")

    # Output voltage.
    Vwanted = v("Vwanted", D("3"), "V", given)
    Rbot = v("Rbot", s["Rbot"], "Ω", given + ": 10 kΩ, nominal of ±1 %")
    # 27.5 kΩ lies between 27.4 kΩ (0.36 % below) and 28.0 kΩ (1.8 % above).
    Rtop = v("Rtop", s["Rtop"], "Ω", "10 kΩ · (3 V/0.8 V - 1) = 27.5 kΩ; E96 has 27.4 and 28.0 there, the nearer is 27.4")
    # The reference holds the node: the upper resistor carries the lower one's
    # current and the pin's.
    i_low = Vref / Rbot
    Idiv = v("rail.Current", i_low + Ifb, "A", "0.8 V/10 kΩ + 50 nA")
    Vout = v("rail.Output", Vref + Idiv * Rtop, "V", "0.8 V + 80.05 µA · 27.4 kΩ")
    v("rail.Error", Vout - Vwanted, "V", "2.99337 V - 3 V")
    share = v("rail.ErrorShare", Vout / Vwanted - 1, "1", "2.99337/3 - 1")
    v("rail.PinShift", Ifb * Rtop, "V", "50 nA · 27.4 kΩ")
    v("rail.PinShare", Ifb / i_low, "1", "50 nA/80 µA")
    v("rail.Power", Vout * Idiv, "W", "2.99337 V · 80.05 µA")
    v("rail.Missing", D(0), "A", "no least load is asked for")
    Iout = v("Iout", Iload + Idiv, "A", "25 mA + 80.05 µA")
    margin(min(share + D("0.04"), D("0.04") - share), "1", "the nearer end of ±4 %: 4 % - 0.221 %")

    # The cable: a series resonant circuit, fed with a step.
    L = v("Lcable", s["Lcable"], "H", given + ": 0.8 µH, nominal of ±20 %")
    Rcable = v("Rcable", s["Rcable"], "Ω", given + ": usual of 60 mΩ, 80 mΩ, 120 mΩ")
    Cin = v("Cin", s["Cin"], "F", given + ": 10 µF, nominal of ±10 %")
    kept = v("Kin", D("0.55"), "1", given + ": 55 %")
    Rin = v("Rin", D("5e-3"), "Ω", given + ": 5 mΩ")
    C = Cin * kept
    omega = 1 / (L * C).sqrt()
    Z = omega * L
    assert abs(Z * Z * C / L - 1) < D("1e-35")

    def plug(name, R):
        damping = R / (2 * L) / omega  # attenuation R/(2L) over the natural frequency
        v(name + ".Impedance", Z, "Ω", "√(L/C) = √(0.8 µH/5.5 µF)")
        v(name + ".Damping", damping, "1", "R/(2L)·√(LC)")
        v(name + ".Quiet", 2 * L * omega, "Ω", "R for which R/(2L) is 1/√(LC): 2·√(L/C)")
        if damping < 1:
            # The first extreme comes half a period of the damped ringing after the plug.
            half = pi / (omega * omega - (R / (2 * L)) ** 2).sqrt()
            over = (-half * R / (2 * L)).exp()
        else:
            over = D(0)
        v(name + ".Overshoot", over, "1", "e^(-attenuation · half a period of the ringing); none where it does not ring")
        peak = v(name + ".Peak", Vin + Vin * over, "V", "5 V and the overshoot")
        return v(name + ".Margin", Vmax - peak, "V", "6.5 V less the peak")

    plug("bare", Rcable)
    # The largest of 2·√(L/C) is 2·√(0.96 µH/4.95 µF) = 880.8 mΩ, less 60 mΩ.
    least = 2 * (D("0.96") / D("4.95")).sqrt() - D("0.06")
    assert D("0.82") < least < D(1)
    Rdamp = v("Rdamp", s["Rdamp"], "Ω", "880.77 mΩ - 60 mΩ = 820.77 mΩ; E12 has 0.82 and 1.0 there; not below: 1 Ω")
    R = Rcable + Rdamp
    left = plug("plugged", R)
    margin(left - 1, "V", "6.5 V - 5 V - 1 V")

    # Heat.
    Vpart = v("Vpart", Vin - (Iout + Iq) * R, "V", "5 V - 25.14005 mA · 1.08 Ω")
    drop = v("spent.Drop", Vpart - Vout, "V", "between input and output")
    pass_loss = v("spent.PassLoss", drop * Iout, "W", "drop · 25.08005 mA")
    ground_loss = v("spent.GroundLoss", Vpart * Iq, "W", "input · 60 µA")
    lost = v("spent.Loss", pass_loss + ground_loss, "W", "both")
    taken = v("spent.InputCurrent", Iout + Iq, "A", "25.08005 mA + 60 µA")
    power = v("spent.InputPower", Vpart * taken, "W", "input · 25.14005 mA")
    useful = v("spent.OutputPower", Vout * Iout, "W", "2.99337 V · 25.08005 mA")
    assert abs(power - useful - lost) < D("1e-35")
    v("spent.Efficiency", 1 - lost / power, "1", "what is not lost")
    v("spent.GroundShare", Iq / taken, "1", "60 µA/25.14005 mA")
    v("spent.MostEfficiency", Vout / Vpart, "1", "output over input")
    limit = Tjmax - 15
    v("heat.Loss", lost, "W", "as spent.Loss")
    rise = v("heat.Rise", lost * theta, "K", "loss · 180 K/W")
    Tj = v("heat.Junction", Ta + rise, "K", "298.15 K and the rise")
    cool = v("heat.Margin", limit - Tj, "K", "383.15 K less the junction")
    allowed = v("heat.AllowedLoss", (limit - Ta) / theta, "W", "(110 °C - 25 °C)/(180 K/W) = 85/180 W")
    most = v("heat.LargestLoad", (allowed - ground_loss) / drop, "A", "what is left of 85/180 W, over the drop")
    v("heat.LargestAmbient", limit - rise, "K", "383.15 K less the rise")
    margin(cool, "K", "as heat.Margin")
    margin(most - Iout, "A", "load allowed above the load")

    # Headroom. At each temperature the dropout is in proportion with the load.
    hot, cold, warm = D("125") + zero_celsius, D("-40") + zero_celsius, D("25") + zero_celsius
    at_cold, at_warm, at_hot = D("1.2"), D("1.6"), D("2.5")  # Ω: 120, 160, 250 mV at 100 mA
    ohms = straight(Tj, cold, at_cold, warm, at_warm) if Tj < warm else straight(Tj, warm, at_warm, hot, at_hot)
    Vdrop = v("Vdrop", ohms * Iout, "V", "1.6 Ω at 25 °C, 2.5 Ω at 125 °C, straight between, times 25.08005 mA")
    Istep = v("Istep", D("87e-3"), "A", given + ": 87 mA")
    v("dip.Impedance", Z, "Ω", "as bare.Impedance")
    jump = v("dip.Jump", Istep * Rin, "V", "87 mA · 5 mΩ")
    # The lead's energy L·I²/2 comes out of C·V²/2.
    swing = v("dip.Swing", (L * Istep**2 / C).sqrt(), "V", "√(0.8 µH · (87 mA)²/5.5 µF)")
    dip = v("dip.Dip", jump + swing, "V", "both")
    v("dip.Frequency", omega / (2 * pi), "Hz", "1/(2π·√(0.8 µH · 5.5 µF))")
    v("dip.Damping", Rin / (2 * L) / omega, "1", "as bare.Damping, with 5 mΩ")
    v("dip.Capacitance", C, "F", "10 µF · 55 %")
    v("room.LeastInput", Vout + Vdrop + Vrip / 2, "V", "output, dropout and half the ripple")
    valley = v("room.Valley", Vpart - dip - Vrip / 2, "V", "input less the dip and half the ripple")
    room = v("room.Headroom", valley - Vout - Vdrop, "V", "valley less output and dropout")
    assert room > 0
    v("room.Delivered", Vout, "V", "in regulation")
    v("room.Lost", D(0), "V", "nothing, in regulation")
    margin(room - 1, "V", "headroom above 1 V")

    # Ripple: a straight line over the decades from 100 kHz to 1 MHz.
    decades = (fsw / D("100e3")).log10()
    psrr = v("PSRR", straight(decades, D(0), D(42), D(1), D(30)), "dB", "42 dB - 12 dB · log10(5)")
    noise = v("Vnoise", Vrip * D(10) ** (-psrr / 20), "V", "40 mV/10^(33.61/20)")
    quiet = v("Vquiet", D("1e-3"), "V", given + ": 1 mV")
    v("needed", 20 * (Vrip / quiet).log10(), "dB", "20 log10(40)")
    margin(quiet - noise, "V", "1 mV - 834.5 µV")

    # Output capacitor.
    Cout = v("Cout", s["Cout"], "F", given + ": 4.7 µF, nominal of ±10 %")
    Resr = v("Resr", s["Resr"], "Ω", given + ": usual of 3 mΩ, 5 mΩ, 10 mΩ")
    Kout = v("Kout", D("0.7"), "1", given + ": 70 %")
    tloop = v("tloop", D("4e-6"), "s", given + ": 4 µs")
    Ceff = v("fed.Effective", Cout * Kout, "F", "4.7 µF · 70 %")
    v("fed.Resistance", Resr, "Ω", "no resistor in series")
    v("fed.Zero", 1 / (2 * pi * Resr * Ceff), "Hz", "1/(2π · 5 mΩ · 3.29 µF)")
    # Far below the upper end of both windows.
    assert Ceff < D("12e-6") and Resr < D("0.25")
    spare = v("fed.CapacitanceMargin", Ceff - D("2.2e-6"), "F", "3.29 µF - 2.2 µF")
    esr = v("fed.ESRMargin", Resr, "Ω", "5 mΩ above nothing")
    v("fed.LeastMarked", D("2.2e-6") / Kout, "F", "2.2 µF/70 %")
    sag_jump = v("sag.Jump", Istep * Resr, "V", "87 mA · 5 mΩ")
    sag = v("sag.Sag", Istep * tloop / Ceff, "V", "348 nC/3.29 µF")
    sag_dip = v("sag.Dip", sag_jump + sag, "V", "both")
    v("sag.Capacitance", Ceff, "F", "as fed.Effective")
    margin(spare - D("0.5e-6"), "F", "1.09 µF - 0.5 µF")
    margin(esr, "Ω", "as fed.ESRMargin")
    margin(D("150e-3") - sag_dip, "V", "150 mV - 106.2 mV")

    # A shorted cable.
    Crail = v("Crail", D("22e-6"), "F", given + ": 22 µF")
    Vbody = v("Vbody", D("0.6"), "V", given)
    Ibody = v("Ibody", D("3"), "A", given)
    excess = v("back.Excess", Vout - Vbody, "V", "2.99337 V - 0.6 V")
    peak = v("back.Peak", excess / R, "A", "2.39337 V/1.08 Ω")
    room = v("back.Margin", Ibody - peak, "A", "3 A less the peak")
    v("back.TimeConstant", R * Crail, "s", "1.08 Ω · 22 µF")
    charge = v("back.Charge", Crail * excess, "C", "22 µF · 2.39337 V")
    # What the rail has lost between the output and the diode's voltage.
    v("back.Energy", Crail * (Vout**2 - Vbody**2) / 2, "J", "22 µF/2 · (2.99337² - 0.6²) V²")
    margin(room, "A", "as back.Margin")


t.run(note)
t.write()
