package render

import "strings"

// The letters and subscripts of the trade, as schematics, datasheets and IEC
// 60027 have them (from memory, common practice). Whoever adds one checks
// the table of names in the tests for English words that it would take apart.

// baseLetters are the quantity symbols that take a subscript of several
// letters without an underscore.
const baseLetters = "VUEIRGZXCLPQTFDftvi"

// humpLetters are those that take any capitalised word: RLoad, tRise.
const humpLetters = "VUIRCLPTQtf"

// wordStarts are the consonants that English words have behind a capital, of the
// letters behind which most consonants make none.
var wordStarts = map[byte]string{
	'C': "hlnrz", 'D': "hjrw", 'F': "jlr", 'G': "hlnrw", 'J': "", 'L': "", 'P': "hlnrst", 'Q': "", 'R': "h", 'T': "hrsw", 'V': "", 'Z': "",
}

// singleSubscripts are the second letters of two-letter names: small ones
// as in Ta, capitals as in RL. What reads as an abbreviation (IC, RC, AC,
// PC, TV) is not among them.
var singleSubscripts = map[byte]string{
	'V': "abcdefghijklmnopqrstuvwxyz" + "BCDEFGLRSZ",
	'U': "abcdefghiklmoqruvwxyz" + "BEFGLSZ",
	'E': "ab",
	'I': "abcdefghjklmopqrstuvwxyz" + "BEFGLQSZ",
	'R': "abcdfghijklmnopqrstuvwxyz" + "BDEGLSZ",
	'G': "bcdfghijklmnpqrstuvwxyz",
	'Z': "abcdefghijklmopqrstuvwxyz" + "LS",
	'X': "clm" + "CL",
	'Y': "clm",
	'C': "abcdefghijklmnpqrstvwxyz" + "BEFGLS",
	'L': "abcdefghjklmnopqrstvwxyz" + "LMS",
	'P': "acdefghijklmnopqsuvwxyz" + "DLQR",
	'Q': "abcdefghijklmnopqrstuvwxyz" + "FGR",
	'T': "abcdefghijklmnpqrstuvwxyz" + "ACJKS",
	'F': "cs",
	'N': "ps",
	'f': "abcdefghijklmnopqrstuvwxyz",
	't': "abcdefghijklmnpqrstuvwxyz",
	'v': "abcdefgilopx",
	'i': "abcglpqr",
}

// subscripts are those of several letters that every base letter takes.
var subscripts = set(`
	in out top bot mid ref max min nom typ on off th sat peak pk rms avg mean
	load src sense sns supply sup line bat batt bus rail adc pin
	fb set lim drop dead delay rise fall hold hys hyst start stop end
	amb air case board ambient junction sink heatsink rated
	sw osc clk bw res cutoff corner nyq samp sample zero pole
	gs ds dg be ce cb bo br ja jc jb cs sa ca
	pull pullup pulldown series par shunt gate drain bias trip fuse charge discharge
	eq tot total sum ext int lo hi low high pos neg side upper lower
	cm dm ls hs oc ov uv esr dson
	leak leakage switch full empty up down node surge head headroom wanted target limit clamp
	sample trig trigger thresh threshold drive driver diode zener led coil motor relay pump sensor cell pack
	core copper wire trace pcb plane chip die package body water room ripple step pulse burst sleep
	active idle standby quiescent wake run boot tx rx radio meas cal gain offset err noise sig signal
	reverse forward snub damp comp feedback div test probe gnd ctrl base collector emitter source stage
	req avail need free ideal most least send short valve ground logic lost reg by day loop
`)

// supplySubscripts belong to voltages and currents only: Fcc and Tee are
// read differently or not at all.
var supplySubscripts = set(`en cc dd ee ss os bb pp io ih il oh ol fwd rev`)

// powerSubscripts belong to voltages, currents and powers.
var powerSubscripts = set(`ac dc`)

// capacitanceSubscripts belong to capacitances and charges.
var capacitanceSubscripts = set(`iss oss rss ss`)

// capitalSubscripts are names all in capitals behind other letters than V, U
// and I; DAC, LED and ESR show why they are listed one by one.
var capitalSubscripts = set(`RDS RTH RON RGS RIN ROUT RSET RLIM RFB RREF RJA RJC RDSON CIN COUT CISS COSS CRSS QGS
	POUT TON TOFF TAMB LOUT FSW`)

// qualifiers may follow another subscript: Vinmax, VCEsat.
var qualifiers = set(`max min nom typ on off sat th pk peak rms avg dc ac`)

// figures are the qualifiers that may follow a single small letter: Tjmax.
// Not on, which would take Icon apart.
var figures = set(`max min nom typ pk peak rms avg`)

// wordsNotSymbols read as words, abbreviations or names of a standard
// although the rule would take them apart.
var wordsNotSymbols = set(`
	E3 E6 E12 E24 E48 E96 E192
	To In It No Us Up Re Pr Cu Ge Ga Co
	Cup Cripple Tripple Vroom Fin Gin Lin Din Con Don Doff Lice Ice Dice Doc Vol Chi Trail Frail Estop
	Tend Vend Lend Fend Fair Lair Pair Text Tint Lint Pint Dint Flow Plow Glow Thigh Flower Glower
	fup iup fin tin ion tout fend tend vend fair text tint trail frail ice vice flow flower thigh
	IN IS IT UP US ION ICE USA ISA ICS IOS IDs
	fn tx tv ip fb ft th
	Cmos Pmos Jfet Fpga Dcdc Lvds Rtos Pcbs Ldos Gbps Tbps Llama Lloyd Dday Pcb Terms Perms Firms Germs
`)

// greekWords are the spelt-out letters. Capitals are listed only where the
// letter does not look like a Latin one; Xi would take X_i from the trade.
var greekWords = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε",
	"zeta": "ζ", "eta": "η", "theta": "θ", "iota": "ι", "kappa": "κ",
	"lambda": "λ", "mu": "μ", "nu": "ν", "xi": "ξ", "pi": "π", "rho": "ρ",
	"sigma": "σ", "tau": "τ", "phi": "φ", "chi": "χ", "psi": "ψ", "omega": "ω",
	"Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Pi": "π",
	"Sigma": "Σ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}
