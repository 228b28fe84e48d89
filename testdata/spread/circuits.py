"""Thirty-odd expressions of circuits with two to eight toleranced parts, computed
by numpy (all corners by brute force, two million draws) and by
python3-uncertainties (first-order standard deviation). The circuits are
textbook ones; the values are made up for these tables.

    python3 -B circuits.py     writes circuits.csv and circuits_inputs.csv (about 20 s)
"""

from witness import *

DRAWS = 2_000_000
SEED = 20080101  # of case k: SEED + k

T0 = "298.15"
CIRCUITS = [  # case, what, unit, expression, inputs
    ("divider", "loaded by nothing, equal parts", "1", "R2/(R1+R2)",
     [percent("R1", 10e3, 1), percent("R2", 10e3, 1)]),
    ("divider-supply", "divider with its supply", "V", "V*R2/(R1+R2)",
     [percent("V", 5, 5), percent("R1", 10e3, 1), percent("R2", 4.7e3, 1)]),
    ("divider-loaded", "divider with a load", "V", "V*Parallel(R2,RL)/(R1+Parallel(R2,RL))",
     [percent("V", 12, 2), percent("R1", 10e3, 1), percent("R2", 3.3e3, 1), percent("RL", 10e3, 5)]),
    ("feedback", "output voltage of a feedback divider", "V", "Vref*(1.0+Rtop/Rbot)",
     [Input("Vref", 0.8, 0.788, 0.812), percent("Rtop", 10e3, 1), percent("Rbot", 1.91e3, 1)]),
    ("feedback-bias", "the same with the pin's current", "V", "Vref*(1.0+Rtop/Rbot)+Ib*Rtop",
     [Input("Vref", 1.24, 1.215, 1.265), percent("Rtop", 100e3, 1), percent("Rbot", 33.2e3, 1),
      Input("Ib", 100e-9, 0.0, 200e-9)]),
    ("rc-corner", "corner frequency of RC", "Hz", "1.0/(2.0*Pi*R*C)",
     [percent("R", 16e3, 1), percent("C", 10e-9, 10)]),
    ("rc-attenuation", "amplitude ratio of an RC low-pass", "1", "1.0/Sqrt(1.0+Pow(2.0*Pi*f*R*C,2.0))",
     [percent("f", 1e3, 2), percent("R", 16e3, 1), percent("C", 10e-9, 10)]),
    ("rc-delay", "time to a threshold", "s", "0.0-R*C*Ln(1.0-Vth/V)",
     [percent("R", 47e3, 5), percent("C", 1e-6, 20), percent("Vth", 1.65, 3), percent("V", 3.3, 5)]),
    ("lc-resonance", "resonance of LC", "Hz", "1.0/(2.0*Pi*Sqrt(L*C))",
     [percent("L", 10e-6, 20), percent("C", 1e-9, 5)]),
    ("lc-impedance", "impedance of a series tuned circuit near resonance", "Ω",
     "Sqrt(R*R+Pow(2.0*Pi*f*L-1.0/(2.0*Pi*f*C),2.0))",
     [percent("R", 10, 5), percent("L", 100e-6, 5), percent("C", 253.303e-12, 5), exact("f", 1e6)]),
    ("lc-damping", "quality of a series circuit", "1", "Sqrt(L/C)/R",
     [percent("L", 4.7e-6, 20), percent("C", 22e-6, 20), percent("R", 0.05, 10)]),
    ("parallel-two", "two resistors in parallel", "Ω", "Parallel(R1,R2)",
     [percent("R1", 1e3, 5), percent("R2", 2.2e3, 5)]),
    ("parallel-three", "three in parallel, each named once for each part", "Ω", "R1*R2*R3/(R1*R2+R1*R3+R2*R3)",
     [percent("R1", 200, 5), percent("R2", 100, 5), percent("R3", 50, 5)]),
    ("sense", "current by a shunt and an amplifier with offset", "V", "(I*Rs+Vos)*G",
     [plus_minus("I", 2.0, 0.1), percent("Rs", 0.01, 1), plus_minus("Vos", 0.0, 1e-3), percent("G", 50, 0.5)]),
    ("sense-difference", "difference amplifier, common mode through unmatched resistors", "V",
     "Vp*R4/(R3+R4)*(1.0+R2/R1)-Vn*R2/R1",
     [exact("Vp", 5.05), exact("Vn", 5.0), percent("R1", 10e3, 0.1), percent("R2", 100e3, 0.1),
      percent("R3", 10e3, 0.1), percent("R4", 100e3, 0.1)]),
    ("thermistor", "resistance by the B equation", "Ω", f"R25*Exp(B*(1.0/T-1.0/{T0}))",
     [percent("R25", 10e3, 1), percent("B", 3950, 1), plus_minus("T", 323.15, 2.0)]),
    ("thermistor-divider", "thermistor and resistor at a supply", "V",
     f"V*R25*Exp(B*(1.0/T-1.0/{T0}))/(R25*Exp(B*(1.0/T-1.0/{T0}))+R)",
     [percent("V", 3.3, 1), percent("R25", 10e3, 1), percent("B", 3435, 1), percent("R", 10e3, 0.1),
      exact("T", 273.15)]),
    ("thermistor-reading", "temperature read back", "K", f"1.0/(1.0/{T0}+Ln(R/R25)/B)",
     [percent("R", 3.6e3, 0.5), percent("R25", 10e3, 1), percent("B", 3950, 1)]),
    ("buck-ripple", "ripple current of a step-down converter", "A", "Vout*(1.0-Vout/Vin)/(f*L)",
     [percent("Vin", 24, 10), percent("Vout", 5, 2), percent("f", 500e3, 10), percent("L", 15e-6, 20)]),
    ("buck-output-ripple", "its output ripple, capacitor and series resistance", "V",
     "Vout*(1.0-Vout/Vin)/(f*L)*(ESR+1.0/(8.0*f*C))",
     [percent("Vin", 24, 10), percent("Vout", 5, 2), percent("f", 500e3, 10), percent("L", 15e-6, 20),
      percent("C", 44e-6, 20), percent("ESR", 5e-3, 50)]),
    ("buck-input-current", "input capacitor current, duty ratio through one half", "A",
     "I*Sqrt(Vout/Vin*(1.0-Vout/Vin))",
     [percent("I", 2, 1), percent("Vout", 12, 1), Input("Vin", 24, 18, 32)]),
    ("loss", "I²R", "W", "I*I*R", [percent("I", 10, 1), percent("R", 0.1, 2)]),
    ("junction", "junction temperature of a linear regulator", "°C", "Ta+(Vin-Vref*(1.0+Rtop/Rbot))*I*theta",
     [Input("Ta", 25, -20, 50), Input("Vin", 9, 8, 10), Input("Vref", 0.8, 0.788, 0.812), percent("Rtop", 10e3, 1),
      percent("Rbot", 1.91e3, 1), Input("I", 0.1, 0.05, 0.12), percent("theta", 62, 10)]),
    ("gain-db", "gain of two stages in dB", "dB", "20.0*Log10((1.0+R2/R1)*(R4/R3))",
     [percent("R1", 1e3, 1), percent("R2", 9.1e3, 1), percent("R3", 2.2e3, 5), percent("R4", 22e3, 5)]),
    ("attenuation-db", "divider in dB", "dB", "20.0*Log10(R2/(R1+R2))",
     [percent("R1", 90e3, 1), percent("R2", 10e3, 1)]),
    ("wheatstone", "bridge of four at a supply, balanced", "V", "V*(R2/(R1+R2)-R4/(R3+R4))",
     [percent("V", 5, 1), percent("R1", 350, 0.1), percent("R2", 350, 0.1), percent("R3", 350, 0.1),
      percent("R4", 350, 0.1)]),
    ("imbalance", "magnitude of a difference that may change sign", "V", "Abs(V1-V2)",
     [percent("V1", 5, 2), percent("V2", 5, 3)]),
    ("led-current", "resistor, supply and forward voltage", "A", "(V-Vf)/R",
     [percent("V", 5, 5), Input("Vf", 2.0, 1.8, 2.4), percent("R", 150, 5)]),
    ("hysteresis", "upper threshold of a comparator", "V", "Vref*(1.0+R1/R2)+(Vref-Vol)*R1/R3",
     [percent("Vref", 1.25, 1), percent("R1", 10e3, 1), percent("R2", 15e3, 1), percent("R3", 470e3, 1),
      Input("Vol", 0.1, 0.0, 0.4)]),
    ("multiple-feedback", "centre frequency of a band-pass with five parts", "Hz",
     "Sqrt((1.0/R1+1.0/R2)/(R3*C1*C2))/(2.0*Pi)",
     [percent("R1", 10e3, 1), percent("R2", 1e3, 1), percent("R3", 47e3, 1), percent("C1", 10e-9, 5),
      percent("C2", 10e-9, 5)]),
    ("instrumentation", "gain of three amplifiers, seven resistors and an offset", "V",
     "(Vd*(1.0+(Ra+Rb)/Rg)+Vos)*R2/R1*(1.0+R4/R3)/(1.0+R2/R1)",
     [percent("Rg", 499, 0.1), percent("Ra", 24.9e3, 0.1), percent("Rb", 24.9e3, 0.1), percent("R1", 10e3, 0.1),
      percent("R2", 10e3, 0.1), percent("R3", 10e3, 0.1), percent("R4", 10e3, 0.1), plus_minus("Vos", 0.0, 2e-3),
      exact("Vd", 0.01)]),
    ("normal-divider", "divider with normal parts, limits at three sigma", "V", "V*R2/(R1+R2)",
     [percent("V", 10, 3, "normal"), percent("R1", 10e3, 5, "normal"), percent("R2", 10e3, 5, "normal")]),
    ("mixed-shapes", "uniform, triangular, normal and arcsine parts in one sum", "V", "Va+Vb*G-Vc",
     [percent("Va", 2.5, 1), percent("Vb", 1.2, 3, "triangular"), percent("G", 2, 1, "normal"),
      plus_minus("Vc", 0.5, 0.02, "arcsine")]),
]


def main():
    rows, inputs = [], []
    for k, (case, what, unit, expression, parts) in enumerate(CIRCUITS):
        rows.append(row(case, what, unit, expression, parts, DRAWS, SEED + k))
        inputs += input_rows(case, parts)
    write("circuits.csv", f"""Circuits with toleranced parts: corners, first-order standard deviation, Monte Carlo.
source: computed by numpy and python3-uncertainties, see circuits.py
command: python3 -B circuits.py ({DRAWS} draws, PCG64, seed of row k counted from 0: {SEED} + k)""", COLUMNS, rows)
    write("circuits_inputs.csv", """Inputs of circuits.csv, in the order of corner_..._at and variance_shares.
source: made up for these tables
command: python3 -B circuits.py""", INPUT_COLUMNS, inputs)


main()
