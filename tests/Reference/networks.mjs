// Pipe trees under one fan, as data, and their solution by EPANET.
// EPANET balances water pipes; with Darcy-Weisbach, the kinematic viscosity of air and heads in metres of air it balances air.
// The ground of a suction point is an emitter that draws air in; the fan is a pump with a curve of many points.
import { Project, Workspace } from "epanet-js";

const gravity = 32.2 * 0.3048; // the engine's own gravity, ft/s² to m/s²
const boreMm = { "2in": 2.067 * 25.4, "3in": 3.068 * 25.4, "4in": 4.026 * 25.4, "6in": 6.065 * 25.4 };
const roughnessMm = 0.0015;

// A made-up fan: pressure falls with the 1.7th power of the flow; so many points that straight lines between them do.
function fan(shutOffPa, openM3PerS, points = 60) {
  return Array.from({ length: points + 1 }, (_, i) => {
    const flow = (openM3PerS * i) / points;
    return [round(flow), round(shutOffPa * (1 - Math.pow(i / points, 1.7)))];
  });
}

const branch = (name, size, lengthM, k, joins, conductance) => ({ name, size, lengthM, k, joins: joins ?? null, conductance: conductance ?? null });

export const networks = [
  {
    name: "one point, 3 in pipe", exponent: 1, density: 1.2014, viscosity: 1.825e-5, fan: fan(420, 0.09),
    branches: [branch("a", "3in", 9.1, 1.6, null, 1.1e-4)],
    discharge: { size: "3in", lengthM: 3.0, k: 0.54 },
  },
  {
    name: "one point, open ground, 6 in pipe", exponent: 0.5, density: 1.03, viscosity: 1.79e-5, fan: fan(300, 0.16),
    branches: [branch("a", "6in", 14, 2.1, null, 9e-3)],
    discharge: { size: "6in", lengthM: 6.0, k: 0.3 },
  },
  {
    name: "two points, unequal", exponent: 1, density: 1.2014, viscosity: 1.825e-5, fan: fan(420, 0.09),
    branches: [branch("trunk", "4in", 7, 1.2), branch("near", "3in", 2, 0.5, "trunk", 4e-5), branch("far", "3in", 15, 2.2, "trunk", 1.5e-4)],
    discharge: { size: "4in", lengthM: 4.5, k: 0.54 },
  },
  {
    name: "three points, one on the way", exponent: 0.75, density: 1.15, viscosity: 1.8e-5, fan: fan(900, 0.08),
    branches: [
      branch("trunk", "4in", 5, 1.1), branch("middle", "3in", 6, 0.8, "trunk"), branch("a", "3in", 3, 1.1, "middle", 2.2e-4),
      branch("b", "2in", 5, 1.6, "middle", 1.3e-4), branch("c", "3in", 9, 1.7, "trunk", 3.1e-4),
    ],
    discharge: { size: "4in", lengthM: 6, k: 1.1 },
  },
  {
    name: "five points, a comb", exponent: 1, density: 1.2014, viscosity: 1.825e-5, fan: fan(650, 0.14),
    branches: [
      branch("trunk", "6in", 6, 0.9), branch("t1", "4in", 4, 0.4, "trunk"), branch("t2", "4in", 4, 0.4, "t1"), branch("t3", "3in", 4, 0.4, "t2"),
      branch("p1", "3in", 2, 1.2, "trunk", 5e-5), branch("p2", "3in", 2, 1.2, "t1", 8e-5), branch("p3", "3in", 3, 1.2, "t2", 2e-5),
      branch("p4", "2in", 2, 1.5, "t3", 6e-5), branch("p5", "3in", 7, 1.9, "t3", 1.2e-4),
    ],
    discharge: { size: "6in", lengthM: 5, k: 0.5 },
  },
  {
    name: "eight points, twice forked", exponent: 0.6, density: 1.1, viscosity: 1.81e-5, fan: fan(1100, 0.2),
    branches: [
      branch("trunk", "6in", 4, 0.6), branch("east", "6in", 6, 1, "trunk"), branch("west", "4in", 8, 1.3, "trunk"),
      branch("e1", "4in", 5, 0.9, "east"), branch("e2", "4in", 3, 0.7, "east"), branch("w1", "3in", 5, 0.9, "west"), branch("w2", "3in", 3, 0.6, "west"),
      branch("a", "3in", 2, 1, "e1", 4e-4), branch("b", "3in", 4, 1.3, "e1", 6e-4), branch("c", "3in", 3, 1, "e2", 2e-4), branch("d", "2in", 5, 1.4, "e2", 9e-4),
      branch("e", "2in", 3, 1.1, "w1", 3e-4), branch("f", "2in", 2, 0.9, "w1", 1e-3), branch("g", "3in", 6, 1.6, "w2", 5e-4), branch("h", "2in", 4, 1.2, "w2", 1.5e-4),
    ],
    discharge: { size: "6in", lengthM: 7, k: 1.2 },
  },
];

export function inputOf(net) {
  const headPerPa = 1 / (net.density * gravity);
  const start = (b) => (b.conductance ? `pit_${b.name}` : `joint_${b.name}`);
  const end = (b) => (b.joins ? `joint_${b.joins}` : "inlet");
  const pipe = (id, from, to, p, mouth) =>
    `${id} ${from} ${to} ${p.lengthM} ${boreMm[p.size]} ${roughnessMm} ${p.k + mouth} Open`;
  return [
    "[JUNCTIONS]", ...net.branches.map((b) => `${start(b)} 0 0`), "inlet 0 0", "outlet 0 0",
    "[RESERVOIRS]", "open 0",
    "[EMITTERS]", ...net.branches.filter((b) => b.conductance).map((b) => `${start(b)} ${b.conductance * 1000 * Math.pow(1 / headPerPa, net.exponent)}`),
    "[PIPES]", ...net.branches.map((b) => pipe(`pipe_${b.name}`, start(b), end(b), b, 0)), pipe("pipe_out", "outlet", "open", net.discharge, 1),
    "[PUMPS]", "fan inlet outlet HEAD curve",
    "[CURVES]", ...net.fan.map(([flow, pa]) => `curve ${flow * 1000} ${pa * headPerPa}`),
    "[OPTIONS]", "UNITS LPS", "HEADLOSS D-W", `VISCOSITY ${net.viscosity / net.density}`, `EMITTER EXPONENT ${net.exponent}`, "ACCURACY 1e-6", "TRIALS 500",
    "[TIMES]", "DURATION 0", "[REPORT]", "STATUS NO", "[END]", "",
  ].join("\n");
}

export async function opened(net) {
  const workspace = new Workspace();
  await workspace.loadModule();
  const model = new Project(workspace);
  workspace.writeFile("net.inp", inputOf(net));
  model.open("net.inp", "net.rpt", "net.out");
  return model;
}

export async function solved(net) {
  const model = await opened(net);
  model.solveH();
  const flow = (link) => round(model.getLinkValue(model.getLinkIndex(link), 8) / 1000); // 8 is EN_FLOW
  const result = { ...net, fanFlow: flow("fan"), flows: Object.fromEntries(net.branches.map((b) => [b.name, flow(`pipe_${b.name}`)])) };
  model.close();
  return result;
}

export function round(value) {
  return Number(value.toPrecision(7));
}
