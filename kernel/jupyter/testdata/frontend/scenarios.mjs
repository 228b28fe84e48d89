// The demo notes in the hands of a designer. All values are computed by hand,
// here or in testdata/notes; E96 is from IEC 60063 (from memory): ... 1.24 1.27
// ..., ... 5.23 5.36 ....

// The cells of 10-supply-sense: 1 inputs, 3 divider, 4 check of the divider,
// 6 settling, 8 surge, 9 the resolution alone; the others are text.
async function supplySense(note) {
  const written = await note.source(1);
  const supply = range => note.edit(1, written.replace('Range(18V, 24V, 32V)', range));
  await note.runAll();
  await note.sees(3, 'Rup 100 kΩ', { what: 'as in the table by hand' });
  await note.sees(9, '8.862 mV', { what: '36.3 V/4096' });
  await note.picture('note', 0, 9);

  // Vfull = 1.125 · 40 V = 45 V; 10 kΩ · (45/3.3 − 1) = 126.4 kΩ, so 127 kΩ.
  // Full scale 3.3 V · (127 + 10)/10 = 45.21 V; 45.21 V/4096 = 11.0376 mV.
  await supply('Range(18V, 24V, 40V)');
  await note.run(1);
  await note.sees(1, '18 … 40 V');
  await note.sees(3, 'Rup 127 kΩ');
  await note.sees(3, 'before Vsup changed: Vfull 36 V, Rup 100 kΩ', { what: 'the old values, and why they moved' });
  await note.sees(9, '11.04 mV', { not: '8.862 mV 8', what: 'five code cells below the edit' });
  await note.sees(9, 'before Vsup changed: sense.Resolution 8.862 mV');
  await note.sees(4, '45.21 V');
  await note.fileHas(9, '11.04 mV');
  await note.fileHas(3, '127 kΩ');
  await note.picture('changed', 1, 4);

  // Vfull = 1.125 · 160 V = 180 V; 10 kΩ · (180/3.3 − 1) = 535.5 kΩ, so 536 kΩ.
  // 100 nA · 536 kΩ = 53.6 mV, which is 3.6 mV more than the 50 mV allowed.
  const leakage = 'leakage of the pin falsifies the supply by less than 50 mV';
  await note.sees(4, `holds ${leakage}`, { not: 'FAILS' });
  await supply('Range(18V, 24V, 160V)');
  await note.run(1);
  await note.sees(4, `FAILS ${leakage}`, { what: 'a requirement that the input breaks' });
  await note.sees(4, '53.6 mV');
  await note.fileHas(4, `FAILS   ${leakage}`);
  await supply('Range(18V, 24V, 32V)');
  await note.run(1);
  await note.sees(4, `holds ${leakage}`, { not: 'FAILS' });
  await note.sees(9, '8.862 mV', { what: 'as before' });

  // A supply in amperes: the divider cannot be computed, what uses it waits.
  await supply('Range(18A, 24A, 32A)');
  await note.run(1);
  await note.sees(3, 'cannot subtract', { not: 'because' });
  await note.sees(9, 'wait', { not: '8.862 mV' });
  await note.picture('waiting', 1, 9);
  await supply('Range(18V, 24V, 32V)');
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
    await note.sees(3, 'Rup is not defined', { what: 'the check of the divider, which moved up' });
    await note.sees(8, 'wait', { not: '8.862 mV' });
    await note.append(`Vfull := 1.125 * High(Vsup)
Rlow := 10kΩ ± 1%
Rup := AtLeast(E96, Nominal(Rlow)*(Vfull/Nominal(Vref) - 1)) ± 1%
ratio := Rlow / (Rup + Rlow)
Vnode := Vsup * ratio`);
    await note.run(loop);
    await note.sees(8, '8.862 mV', { not: 'wait', what: 'defined again, at the end of the note' });
  }

  // A new kernel computes the note as it now stands, from the top.
  await supply('Range(18V, 24V, 40V)');
  await note.restart();
  await note.runAll();
  const resolution = note.name === 'lab' ? 8 : 9;
  await note.sees(resolution, '11.04 mV', { not: '8.862 mV', what: 'after a restart' });

  // The page is loaded again while the kernel lives: what it shows now, the
  // kernel cannot replace, and says so where the person runs a cell.
  await note.fileHas(resolution, '11.04 mV');
  await note.reload();
  await supply('Range(18V, 24V, 32V)');
  await note.run(1);
  await note.sees(1, 'that this page may still show from before it was loaded are out of date: run all cells');
  await note.runAll();
  await note.sees(resolution, '8.862 mV', { not: '11.04 mV', what: 'run in the new page' });
  await note.sees(1, '18 … 32 V', { not: 'before it was loaded' });
}

// The cells of 20-logic-rail: 1 inputs, 3 output voltage, 5 headroom, 7 heat,
// 8 limits, 15 the text that sums it up; the others are text.
async function logicRail(note) {
  await note.runAll();
  await note.sees(15, 'has its junction at −19.3 … 95.67 °C. The load is 8 … 280 mA', { not: '{Tj', what: 'values in a text' });
  await note.sees(7, 'Tj 31.37 °C −19.3 … 95.67 °C', { what: 'as in the table by hand' });

  // The table by hand has 35.66673 K of heating at most with 280 mA:
  // 35.66673 K/(62 K/W) − 5.25 V · 90 µA = 574.7974 mW, 2.052848 V · 280 mA.
  // With 450 mA: 2.052848 V · 450 mA + 0.4725 mW = 924.254 mW; 60 °C +
  // 924.254 mW · 62 K/W = 117.3037 °C, 7.3037 K above 125 °C − 15 K.
  const text = await note.source(1);
  await note.edit(1, text.replace('280mA', '450mA'));
  await note.run(1);
  await note.sees(7, '117.3 °C');
  await note.sees(7, 'FAILS the junction stays 15 K below its limit');
  await note.sees(7, 'margin −7.304 K');
  await note.sees(7, '“the junction stays 15 K below its limit” held', { what: 'the verdict before' });
  await note.fileHas(7, '117.3 °C');
  await note.sees(15, 'has its junction at −19.3 … 117.3 °C. The load is 8 … 450 mA', { not: '280 mA', what: 'a text, eight cells below the edit' });
  await note.fileHas(15, '117.3 °C');
  await note.picture('changed', 1, 7);
  await note.picture('text', 13, 15);
}

export const scenarios = { '10-supply-sense': supplySense, '20-logic-rail': logicRail };
