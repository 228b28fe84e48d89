// The demo note of the measuring divider, in the hands of a designer. All
// values are computed by hand, here or in testdata/notes/10-supply-sense.csv;
// E96 is from IEC 60063 (from memory): ... 1.24 1.27 ..., ... 5.23 5.36 ....
//
// Its cells: 1 inputs, 3 divider, 4 check of the divider, 6 settling, 8 surge,
// 9 the resolution alone; the others are text.

const inputs = high => `Vsup := Range(18V, 24V, ${high})       // supply at the terminal [system spec 4.2]
Vsurge := 60V                      // at the terminal for 5 ms, a pump unplugged [assumed]
Vref := Band(3.267V, 3.3V, 3.333V)  // full scale of the converter, the 3.3 V rail [20-logic-rail]
bits := 12                         // resolution of the converter [MCU datasheet, converter]
Ileak := 100nA                     // into or out of the pin at 85 °C [MCU datasheet, pins]
Rswitch := 1kΩ                     // inside the converter [MCU datasheet, converter]
Csample := 14pF                    // sampling capacitor [MCU datasheet, converter]
Tsample := 4µs                     // sampling time that the firmware sets [firmware design 3.1]
Iclamp := 2mA                      // that the pin's protection may take [MCU datasheet, ratings]`;

export async function supplySense(note) {
  await note.runAll();
  await note.sees(3, 'Rup 100 kΩ', { what: 'as in the table by hand' });
  await note.sees(9, '8.862 mV', { what: '36.3 V/4096' });
  await note.picture('note', 0, 9);

  // Vfull = 1.125 · 40 V = 45 V; 10 kΩ · (45/3.3 − 1) = 126.4 kΩ, so 127 kΩ.
  // Full scale 3.3 V · (127 + 10)/10 = 45.21 V; 45.21 V/4096 = 11.0376 mV.
  await note.edit(1, inputs('40V'));
  await note.run(1);
  await note.sees(1, '18 … 40 V');
  await note.sees(3, '127 kΩ', { not: '100 kΩ' });
  await note.sees(9, '11.04 mV', { not: '8.862 mV', what: 'five code cells below the edit' });
  await note.sees(4, '45.21 V');
  await note.fileHas(9, '11.04 mV');
  await note.fileHas(3, '127 kΩ');
  await note.picture('changed', 1, 4);

  // Vfull = 1.125 · 160 V = 180 V; 10 kΩ · (180/3.3 − 1) = 535.5 kΩ, so 536 kΩ.
  // 100 nA · 536 kΩ = 53.6 mV, which is 3.6 mV more than the 50 mV allowed.
  const leakage = 'leakage of the pin falsifies the supply by less than 50 mV';
  await note.sees(4, `holds ${leakage}`, { not: 'FAILS' });
  await note.edit(1, inputs('160V'));
  await note.run(1);
  await note.sees(4, `FAILS ${leakage}`, { what: 'a requirement that the input breaks' });
  await note.sees(4, '53.6 mV');
  await note.fileHas(4, `FAILS   ${leakage}`);
  await note.edit(1, inputs('32V'));
  await note.run(1);
  await note.sees(4, `holds ${leakage}`, { not: 'FAILS' });
  await note.sees(9, '8.862 mV', { what: 'as before' });

  // A supply in amperes: the divider cannot be computed, what uses it waits.
  await note.edit(1, inputs('32V').replace('Range(18V, 24V, 32V)', 'Range(18A, 24A, 32A)'));
  await note.run(1);
  await note.sees(3, 'cannot subtract', { not: '100 kΩ' });
  await note.sees(9, 'wait', { not: '8.862 mV' });
  await note.picture('waiting', 1, 9);
  await note.edit(1, inputs('32V'));
  await note.run(1);
  await note.sees(3, '100 kΩ', { not: 'cannot subtract' });
  await note.sees(9, '8.862 mV', { not: 'wait', what: 'healed' });

  // An endless loop, ended by the front end's own interrupt.
  const loop = await note.append('for {}');
  await note.start(loop);
  await new Promise(done => setTimeout(done, 500));
  const ms = await note.interrupt();
  note.check(ms < 1000, 'interrupted within a second, the front end included', `${ms} ms`);
  await note.sees(loop, 'interrupted');
  await note.edit(loop, 'twice := 2*sense.Ratio');
  await note.run(loop);
  await note.sees(loop, '0.1818', { what: '2 · 10/110, in the cell that was interrupted' });

  // A cell taken out of the note takes its names along. The classic notebook
  // does not tell the kernel of it.
  if (note.name === 'lab') {
    await note.remove(3);
    await note.run(1);
    await note.sees(3, 'Rup', { not: '36.3 V', what: 'the check of the divider, which moved up' });
    await note.sees(8, 'wait', { not: '8.862 mV' });
    await note.append(`Vfull := 1.125 * High(Vsup)
Rlow := 10kΩ ± 1%
Rup := AtLeast(E96, Nominal(Rlow)*(Vfull/Nominal(Vref) - 1)) ± 1%
ratio := Rlow / (Rup + Rlow)
Vnode := Vsup * ratio`);
    await note.run(loop);
    await note.sees(8, '8.862 mV', { not: 'wait', what: 'defined again, at the end of the note' });
  }

  await note.restart();
  await note.runAll();
  await note.sees(loop - (note.name === 'lab' ? 2 : 1), '8.862 mV', { what: 'after a restart' });
}
