"""Every value of the note 95-power-tree, added up from the loads to the
supply in exact fractions.

Every value is at its extremes at corners: more current, more ground current and
more time of watering take more, more efficiency takes less all the way. A higher
supply takes less current, and more power by its quiescent current.
"""

from table import F, Table

t = Table({
    "Vin": ("18", "24", "32"),
    "Ivalve": ("0.12", "0.15", "0.18"),
    "Isend": ("0.08", "0.095", "0.12"),
    "tWater": ("900", "3600", "10800"),
    "ηbus": ("0.82", "0.86", "0.89"),
    "Iground": ("0.00004", "0.00006", "0.00009"),
})


def body(value, margin, at):
    vin = value("Vin", at["Vin"], "V", "given")
    coil = value("Ivalve", at["Ivalve"], "A", "given")
    send = value("Isend", at["Isend"], "A", "given")
    water = value("tWater", at["tWater"], "s", "given")
    eta = value("ηbus", at["ηbus"], "1", "given")
    ground = value("Iground", at["Iground"], "A", "given")
    bus_v, logic_v, valve_v = F(5), F("3.3"), F(12)

    def supply(logic, probes, valve):
        """Current out of the supply, and the heats of logic and valve."""
        lost = F("0.0006") + valve * F("0.3") / F("0.2")
        boost = (valve * valve_v + lost) / bus_v
        bus = probes + logic + ground + boost
        heat = (bus_v - logic_v) * logic + bus_v * ground
        return bus * bus_v / eta / vin + F("0.000025"), heat, lost, logic, bus

    mcu = F("0.012")
    radio = F("0.000001")
    idle = supply(F("0.000015") + radio, F(0), F(0))
    measure = supply(mcu + radio, F("0.02"), F(0))
    watering = supply(mcu + radio, F(0), coil)
    sending = supply(mcu + send, F(0), F(0))
    modes = [idle, measure, watering, sending]
    times = [F(86400 - 1800 - 900) - water, F(1800), water, F(900)]

    most = value("Imost", max(m[0] for m in modes), "A", "watering: (12 V · Ivalve + loss + 5 V · (12.001 mA + Iground))/(ηbus · Vin) + 25 µA")
    value("Iidle", idle[0], "A", "(0.6 mW + 5 V · (16 µA + Iground))/(ηbus · Vin) + 25 µA")
    energy = value("Eday", sum(m[0] * vin * s for m, s in zip(modes, times)), "J", "sum over the modes of current · Vin · time")
    heat = value("Plogic", max(m[1] for m in modes), "W", "sending: 1.7 V · (12 mA + Isend) + 5 V · Iground")
    lost = value("Pboost", watering[2], "W", "0.6 mW + 1.5 V · Ivalve")
    logic = max(m[3] for m in modes)
    bus = max(m[4] for m in modes)
    shares = [1 - most / F("0.3"), 1 - bus, 1 - logic / F("0.2"), 1 - coil / F("0.2")]
    left = value("left", min(shares), "1", "least of 1 - current/limit over the four rails")
    margin(F("0.4") - heat, "W", "400 mW - Plogic")
    margin(F("0.35") - lost, "W", "350 mW - Pboost")
    margin(left - F("0.05"), "1", "left - 5 %")
    margin(F(12 * 3600) - energy, "J", "12 Wh - Eday")


t.run(body)
t.write()
