package texmath

import "strings"

// letters are commands that stand for a letter or another operand.
var letters = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ϵ", "varepsilon": "ε", "zeta": "ζ", "eta": "η",
	"theta": "θ", "vartheta": "ϑ", "iota": "ι", "kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν", "xi": "ξ", "pi": "π",
	"rho": "ρ", "varrho": "ϱ", "sigma": "σ", "tau": "τ", "upsilon": "υ", "phi": "ϕ", "varphi": "φ", "chi": "χ", "psi": "ψ", "omega": "ω",
	"Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Xi": "Ξ", "Pi": "Π", "Sigma": "Σ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
	"infty": "∞", "ell": "ℓ", "hbar": "ℏ", "partial": "∂", "nabla": "∇", "Re": "ℜ", "Im": "ℑ", "emptyset": "∅", "degree": "°",
	"ldots": "…", "dots": "…", "cdots": "⋯", "vdots": "⋮", "prime": "′", "circ": "∘", "%": "%", "$": "$", "#": "#", "&": "&", "_": "_",
}

// signs are commands that stand for an operator.
var signs = map[string]string{
	"cdot": "⋅", "times": "×", "div": "÷", "pm": "±", "mp": "∓", "ast": "∗", "star": "⋆", "parallel": "∥", "perp": "⊥", "mid": "∣",
	"le": "≤", "leq": "≤", "ge": "≥", "geq": "≥", "ne": "≠", "neq": "≠", "ll": "≪", "gg": "≫", "approx": "≈", "sim": "∼", "simeq": "≃",
	"equiv": "≡", "propto": "∝", "in": "∈", "notin": "∉", "subset": "⊂", "cup": "∪", "cap": "∩", "land": "∧", "lor": "∨", "neg": "¬",
	"to": "→", "rightarrow": "→", "leftarrow": "←", "Rightarrow": "⇒", "Leftarrow": "⇐", "Leftrightarrow": "⇔", "leftrightarrow": "↔",
	"mapsto": "↦", "uparrow": "↑", "downarrow": "↓", "angle": "∠", "forall": "∀", "exists": "∃", "oplus": "⊕",
	"langle": "⟨", "rangle": "⟩", "lfloor": "⌊", "rfloor": "⌋", "lceil": "⌈", "rceil": "⌉", "{": "{", "}": "}", "|": "‖", "lbrace": "{", "rbrace": "}",
	"vert": "|", "Vert": "‖", "colon": ":",
}

// large are operators whose limits stand above and below in a display.
var large = map[string]string{"sum": "∑", "prod": "∏", "int": "∫", "oint": "∮", "bigcup": "⋃", "bigcap": "⋂"}

// functions are written upright by their name.
var functions = words("sin cos tan cot sec csc arcsin arccos arctan sinh cosh tanh ln log lg exp min max lim arg det gcd sup inf sgn")

func words(list string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(list) {
		m[w] = true
	}
	return m
}

// spaces are widths in em.
var spaces = map[string]string{",": "0.17em", ":": "0.22em", ">": "0.22em", ";": "0.28em", " ": "0.33em", "~": "0.33em", "quad": "1em", "qquad": "2em", "!": "-0.17em"}

// accents stand above their argument; those of more than a letter stretch.
var accents = map[string]string{"bar": "¯", "overline": "¯", "hat": "^", "widehat": "^", "tilde": "~", "widetilde": "~", "dot": "˙", "ddot": "¨", "vec": "→"}
