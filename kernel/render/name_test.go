package render

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The expected side is how schematics, datasheets and IEC 60027 write these
// quantities: from memory, common practice. V|in is V with the subscript in;
// a word stands between quotes.
func TestNames(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ rule, names string }{
		{"underscore", `R_top=R|top  V_in_max=V|in,max  theta_JA=θ|JA  eff_max="eff"|max  R1_min=R|1,min
			I_q=I|q  tau_1=τ|1  ESR_max="ESR"|max  _x="_x"  x_="x_"  a__b="a__b"  supply_ok="supply"|ok`},
		{"Greek", `η=η eta=η theta=θ θJA=θ|JA thetaJA=θ|JA thetaJC=θ|JC tau=τ tau1=τ|1 ηmin=η|min Omega=Ω omega0=ω|0
			λ=λ µ=μ μr=μ|r psiJT=ψ|JT etaMax=η|Max phi=φ rho=ρ beta=β alpha20=α|20 τ1=τ|1 pi=π Pi=π`},
		{"Greek is not in words", `pin="pin" pitch="pitch" etalon="etalon" muted="muted" number="number" nut="nut"
			betatron="betatron" Alpha="Alpha" Mu="Mu" Beta="Beta" Eta="Eta" tauern="tauern" πλάτος="πλάτος"`},
		{"difference", `ΔT=ΔT ΔVout=ΔV|out DeltaT=ΔT DeltaIL=ΔI|L Δ=Δ ΔIL=ΔI|L δ=δ delta=δ deltas="deltas"`},
		{"letter and digits", `V=V R=R f=f x=x R1=R|1 C12=C|12 t0=t|0 x2=x|2 R1a=R|1a R1min=R|1,min V3V3=V|3V3 V5=V|5 Q10=Q|10 n1=n|1
			E3="E3" E6="E6" E12="E12" E24="E24" E48="E48" E96="E96" E192="E192" E5=E|5 I2C="I2C" x1a="x1a" a2b="a2b" A2D="A2D"`},
		{"two letters", `Ta=T|a Tj=T|j Tc=T|c Pd=P|d Vf=V|f If=I|f Iq=I|q Id=I|d Rs=R|s Rb=R|b Cl=C|l fc=f|c fs=f|s tr=t|r td=t|d
			RL=R|L CL=C|L VF=V|F TJ=T|J TA=T|A IL=I|L PD=P|D VS=V|S Np=N|p Ns=N|s Ll=L|l Lm=L|m`},
		{"two letters that are words", `To="To" It="It" In="In" No="No" Us="Us" Up="Up" to="to" is="is" it="it" id="id" vs="vs" ok="ok"
			IC="IC" RC="RC" LC="LC" AC="AC" DC="DC" PC="PC" TV="TV" RF="RF" IO="IO" IR="IR" TX="TX" RX="RX" IP="IP" PI="PI" VA="VA"
			fn="fn" tx="tx" ip="ip" fb="fb" US="US" IDs="IDs" Cu="Cu" Re="Re" Pr="Pr" dV="dV" di="di"`},
		{"trade subscripts", `Vin=V|in Vout=V|out Iout=I|out Iin=I|in Pout=P|out Pin=P|in Rtop=R|top Rbot=R|bot Vref=V|ref fsw=f|sw
			Vbat=V|bat Vbus=V|bus Cout=C|out Cin=C|in Lout=L|out Rload=R|load Iload=I|load Vdrop=V|drop Rsense=R|sense
			Tamb=T|amb Tmax=T|max Pmax=P|max Imax=I|max ton=t|on Ton=T|on toff=t|off tdead=t|dead Dmax=D|max
			Vds=V|ds Rds=R|ds Rdson=R|dson Vgs=V|gs Vbe=V|be Vcc=V|cc Vdd=V|dd Icc=I|cc Coss=C|oss Ciss=C|iss Css=C|ss
			Rth=R|th Vth=V|th Rja=R|ja fclk=f|clk fosc=f|osc vin=v|in iout=i|out Ipk=I|pk Irms=I|rms Vac=V|ac Vdc=V|dc Eon=E|on
			Vfb=V|fb Vos=V|os Ilim=I|lim Qg=Q|g Zin=Z|in Gmin=G|min Ileak=I|leak Rswitch=R|switch Vfull=V|full Rup=R|up Vnode=V|node Cnode=C|node Vclamp=V|clamp
			Vwanted=V|wanted Vhead=V|head Vsurge=V|surge Csample=C|sample Tsample=T|sample Vsup=V|sup Iclamp=I|clamp Ifb=I|fb Iled=I|led
			Vsupply=V|supply Resr=R|esr Ptot=P|tot`},
		{"capitals", `VCC=V|CC VDD=V|DD VIN=V|IN VOUT=V|OUT IOUT=I|OUT VREF=V|REF VBUS=V|BUS RDS=R|DS ICC=I|CC UIN=U|IN
			VOut=V|Out RTop=R|Top RLoad=R|Load VSupply=V|Supply TAmbient=T|Ambient CIN=C|IN`},
		{"two subscripts", `Vinmax=V|in,max Vinmin=V|in,min Ioutmax=I|out,max RDSon=R|DS,on VCEsat=V|CE,sat VGSth=V|GS,th ILmax=I|L,max
			TJmax=T|J,max ICmax=I|C,max Vin1=V|in1 Vout2=V|out2 RthJA=R|th,JA RthJC=R|th,JC Tjmax=T|j,max Vfmax=V|f,max Idmin=I|d,min
			VinMax=V|in,Max Vrefmin=V|ref,min`},
		{"no word starts so", `Rdyn=R|dyn Rntc=R|ntc Rcable=R|cable Rpath=R|path Rwind=R|wind Lcable=L|cable Llead=L|lead Pboost=P|boost Pcold=P|cold
			Tpad=T|pad Tdose=T|dose Vpart=V|part Vquiet=V|quiet Vreg=V|reg Vring=V|ring Vrip=V|rip Vstrike=V|strike Ccoup=C|coup Jtrip=J|trip Qpulse=Q|pulse
			Rdyn2=R|dyn2 Pcb="Pcb" Pwm="Pwm" Ldo="Ldo" Lcd="Lcd" Rtc="Rtc" Tvs="Tvs" Cpu="Cpu" Cmos="Cmos" Jfet="Jfet" Fpga="Fpga" Gbps="Gbps"`},
		{"other names of the demo notes", `Lideal=L|ideal Iground=I|ground Isend=I|send Ishort=I|short Ivalve=I|valve Imost=I|most Plogic=P|logic Plost=P|lost Preg=P|reg
			Cby=C|by Eday=E|day Ven=V|en tloop=t|loop tWater=t|Water tripped="tripped" timing="timing" island="island" fault="fault" Kin="Kin" Pall="Pall" Kept="Kept"`},
		{"fields of results", `Case="Case" Change="Change" Charge="Charge" Class="Class" Clearing="Clearing" Circulating="Circulating" Converter="Converter"
			Curve="Curve" Cutoff="Cutoff" Cycle="Cycle" Daily="Daily" Dip="Dip" Drill="Drill" Droop="Droop" Dynamic="Dynamic" Efficiency="Efficiency" Film="Film"
			First="First" Flows="Flows" From="From" Full="Full" Gate="Gate" Ideal="Ideal" Junction="Junction" Jump="Jump" Laminate="Laminate" Last="Last" Least="Least"
			Left="Left" Lift="Lift" Low="Low" Nusselt="Nusselt" Pad="Pad" Panel="Panel" Per="Per" Phase="Phase" Plant="Plant" Plating="Plating" Pole="Pole" Printed="Printed"
			Pull="Pull" Quiet="Quiet" Ramp="Ramp" Rayleigh="Rayleigh" Real="Real" Ringing="Ringing" Rail="Rail" Rising="Rising" Taken="Taken" Tempco="Tempco" Threshold="Threshold"
			Title="Title" Top="Top" Transfer="Transfer" Trip="Trip" Turning="Turning" Usual="Usual" Valley="Valley" Voltage30="Voltage30" XName="XName" LightOn="LightOn"
			FromSource="FromSource" TurnOn="TurnOn" TempCo="TempCo"`},
		{"words", `margin="margin" loss="loss" Power="Power" ESR="ESR" Total="Total" Index="Index" Ratio="Ratio" Limit="Limit" Load="Load"
			Loss="Loss" Gain="Gain" Rate="Rate" Rise="Rise" Time="Time" Temp="Temp" Text="Text" Tint="Tint" Test="Test" Voltage="Voltage"
			Current="Current" Resistance="Resistance" Capacitor="Capacitor" Rail="Rail" Trail="Trail" Stop="Stop" Start="Start" Reset="Reset"
			Bin="Bin" Lin="Lin" Din="Din" Fin="Fin" Ice="Ice" Vol="Vol" Chi="Chi" Flow="Flow" Fair="Fair" Pair="Pair" Thigh="Thigh"
			LED="LED" ADC="ADC" DAC="DAC" PWM="PWM" PIN="PIN" MCU="MCU" FET="FET" LDO="LDO" PCB="PCB" EMI="EMI" RMS="RMS" VIA="VIA" TOP="TOP"
			LEDon="LEDon" ratio="ratio" total="total" index="index" time="time" tick="tick" fit="fit" fin="fin" tin="tin" top="top" via="via"
			ripple="ripple" voltage="voltage" current="current" item="item" first="first" image="image" text="text" ice="ice" flow="flow"
			divider="divider" Res="Res" Name="Name" Cost="Cost" Count="Count" Price="Price" Number="Number" Fuse="Fuse" Phase="Phase" Pulse="Pulse"
			Pitch="Pitch" Point="Point" Unit="Unit" User="User" Entry="Entry" Error="Error" Length="Length" Level="Level" Line="Line"
			Cup="Cup" Clamp="Clamp" Cripple="Cripple" Icon="Icon" Climax="Climax" Trace="Trace" Terror="Terror" Fused="Fused" Lead="Lead"
			Relay="Relay" Reverse="Reverse" Restep="Restep" Source="Source" Sleep="Sleep" Version="Version" Verdict="Verdict" View="View"
			Quality="Quality" Query="Query" Group="Group" Ground="Ground" Zener="Zener" Zone="Zone" Delay="Delay" Duty="Duty" Node="Node"
			Turns="Turns" Code="Code" Core="Core" Copper="Copper" Input="Input" Volt="Volt" Value="Value" Fan="Fan" Family="Family"`},
	} {
		for _, f := range strings.Fields(c.names) {
			name, want, _ := strings.Cut(f, "=")
			s := split(name)
			got := s.base
			if s.word {
				got = `"` + got + `"`
			}
			got = s.prefix + got
			if s.sub != "" {
				got += "|" + s.sub
			}
			if got != want {
				t.Errorf("%s: %s is split into %s, want %s", c.rule, name, got, want)
			}
		}
	}
}

// No letter of a name is lost or moved: base and subscript together are the
// name, but for what parts them and for Greek.
func TestSplitLosesNothing(t *testing.T) {
	t.Parallel()
	spell := strings.NewReplacer("_", "", ",", "")
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[A-Za-z_][A-Za-z0-9_]{0,9}|[VIRCLPTft](in|out|th|J|DS|ds|max|Load|leak)(max|on|JA|A|2)?|[ΔθηΩµ][A-Za-z0-9]{0,4}`).Draw(t, "name")
		s := split(name)
		got := s.prefix + s.base
		for word, letter := range greekWords {
			if (s.base == letter || s.prefix == letter) && strings.HasPrefix(name, word) {
				got = strings.Replace(got, letter, word, 1)
				break
			}
		}
		if got, want := spell.Replace(got+s.sub), spell.Replace(strings.ReplaceAll(name, "µ", "μ")); got != want {
			t.Fatalf("%s is split into %+v", name, s)
		}
	})
}

func TestNameFlavours(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, plain, tex, mathML string }{
		{"Vin", "Vin", `V_{\mathrm{in}}`, "<msub><mi>V</mi><mi>in</mi></msub>"},
		{"theta_JA", "theta_JA", `\theta_{\mathrm{JA}}`, "<msub><mi>θ</mi><mi>JA</mi></msub>"},
		{"Tj", "Tj", `T_{\mathrm{j}}`, `<msub><mi>T</mi><mi mathvariant="normal">j</mi></msub>`},
		{"R1", "R1", `R_{1}`, "<msub><mi>R</mi><mn>1</mn></msub>"},
		{"margin", "margin", `\mathrm{margin}`, "<mi>margin</mi>"},
		{"a__b", "a__b", `\mathrm{a\_\_b}`, "<mi>a__b</mi>"},
		{"ΔVout", "ΔVout", `\Delta V_{\mathrm{out}}`, `<mrow><mi mathvariant="normal">Δ</mi><msub><mi>V</mi><mi>out</mi></msub></mrow>`},
		{"supply.Vbus", "supply.Vbus", `\mathrm{supply}\text{.}V_{\mathrm{bus}}`,
			`<mrow><mi>supply</mi><mo lspace="0" rspace="0">.</mo><msub><mi>V</mi><mi>bus</mi></msub></mrow>`},
		{"math.Pi", "math.Pi", `\pi`, "<mi>π</mi>"},
	} {
		if got := Name(c.name, Plain); got != c.plain {
			t.Errorf("%s as text: %s", c.name, got)
		}
		if got := Name(c.name, TeX); got != c.tex {
			t.Errorf("%s as TeX: %s, want %s", c.name, got, c.tex)
		}
		if got := Name(c.name, MarkdownMath); got != "$"+c.tex+"$" {
			t.Errorf("%s as Markdown: %s", c.name, got)
		}
		if got := strings.TrimSuffix(strings.SplitN(Name(c.name, MathML), ">", 2)[1], "</math>"); got != c.mathML {
			t.Errorf("%s as MathML: %s, want %s", c.name, got, c.mathML)
		}
	}
}
