import { describe, expect, it } from 'vitest';
import { planningLimit } from '../../src/trade/ampacity.ts';
import { parkedDays, selfDischargeA, stateOfCharge } from '../../src/trade/battery.ts';
import { awgAreaMm2, awgLabel, coldOhmPerM, ohmPerM } from '../../src/trade/conductors.ts';
import { converterInputA, dropV, holdUpFarad, junctionC, rcTimeS, seriesOhm, shortCircuitAreaMm2, storedJ, surgeI2t } from '../../src/trade/formulas.ts';
import { adiabaticK, bladeColour, clearTimeMaxS, coldOhm, gateMaxS, gateMinS, meltI2t, tempFactor } from '../../src/trade/fuses.ts';
import { fitLeads } from '../../src/trade/guide.ts';
import { gpioPin, headerPin } from '../../src/trade/header.ts';
import { displayA } from '../../src/trade/loads.ts';
import { nearestPreferred, resistorWattsAt } from '../../src/trade/preferred.ts';
import { crankProfile, supplyCorners, supplyV } from '../../src/trade/supply.ts';
import type { ZoneKind } from '../../src/trade/words.ts';
import { zoneClimate } from '../../src/trade/zones.ts';

describe('bad input throws a RangeError that shows the value', () => {
  it.each<[string, () => unknown, string]>([
    ['area zero', () => ohmPerM(0, 20), '0'],
    ['area negative', () => ohmPerM(-1.5, 20), '-1.5'],
    ['area not a number', () => coldOhmPerM(Number.NaN), 'NaN'],
    ['area far too large', () => awgLabel(900), '900'],
    ['temperature not a number', () => ohmPerM(1, Number.NaN), 'NaN'],
    ['temperature below absolute reason', () => ohmPerM(1, -273), '-273'],
    ['gauge 41', () => awgAreaMm2(41), '41'],
    ['gauge 17.5', () => awgAreaMm2(17.5), '17.5'],
    ['limit of nothing', () => planningLimit(0, 105, 60, 1), '0'],
    ['limit of endless wires', () => planningLimit(1, 105, 60, Number.POSITIVE_INFINITY), 'Infinity'],
    ['limit of half a wire', () => planningLimit(1, 105, 60, 2.5), '2.5'],
    ['limit with minus one wire', () => planningLimit(1, 105, 60, -1), '-1'],
    ['limit with insulation of 5 °C', () => planningLimit(1, 5, 60, 1), '5'],
    ['fuse of 0 A', () => coldOhm(0), '0'],
    ['fuse of NaN A', () => meltI2t(Number.NaN), 'NaN'],
    ['fuse of 501 A', () => bladeColour(501), '501'],
    ['gate of a negative current', () => gateMaxS(-1), '-1'],
    ['gate of NaN', () => gateMinS(Number.NaN), 'NaN'],
    ['fault of minus 3 A', () => clearTimeMaxS(5, -3), '-3'],
    ['fuse at 999 °C', () => tempFactor(999), '999'],
    ['end colder than start', () => adiabaticK(160, 105), '105'],
    ['14 V system', () => supplyV(14, 'ACC', 'I'), '14'],
    ['corners of 48 V', () => supplyCorners(48, 'I'), '48'],
    ['dip level V', () => crankProfile(12, 'V' as 'I'), 'V'],
    ['zone kind garage', () => zoneClimate('garage' as ZoneKind), 'garage'],
    ['preferred value of zero', () => nearestPreferred(0, 'E12', 'up'), '0'],
    ['preferred value of a negative', () => nearestPreferred(-47, 'E12', 'up'), '-47'],
    ['resistor of -1 W', () => resistorWattsAt(-1, 25), '-1'],
    ['pin 0', () => headerPin(0), '0'],
    ['pin 41', () => headerPin(41), '41'],
    ['pin 1.5', () => headerPin(1.5), '1.5'],
    ['GPIO 28', () => gpioPin(28), '28'],
    ['battery of 0 Ah', () => selfDischargeA(0), '0'],
    ['negative parked draw', () => parkedDays(60, -0.01), '-0.01'],
    ['battery at 99 V', () => stateOfCharge(99, 'flooded', 12), '99'],
    ['brightness 80', () => displayA('7', 80), '80'],
    ['survey of a 6 V vehicle', () => fitLeads({}, 6), '6'],
    ['reading of 400 V', () => fitLeads({ asleep: 400 }, 12), '400'],
    ['series resistor for no current', () => seriesOhm(12, 2, 0), '0'],
    ['series resistor below the forward voltage', () => seriesOhm(1, 2, 0.01), '1'],
    ['negative power', () => junctionC(25, -2, 50), '-2'],
    ['hold-up to a higher voltage', () => holdUpFarad(10, 1, 7, 9), '9'],
    ['threshold above the supply', () => rcTimeS(1, 1, 5, 6), '6'],
    ['short of 6 s', () => shortCircuitAreaMm2(100, 6, 115), '6'],
    ['negative length', () => dropV(1, -2, 0.01), '-2'],
    ['efficiency of 120 %', () => converterInputA(5, 1, 1.2, 12), '1.2'],
    ['negative capacitance', () => storedJ(-1, 5), '-1'],
    ['surge through nothing', () => surgeI2t(12, 1e-3, 0), '0'],
  ])('%s', (_what, call, shown) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(shown);
  });
});
