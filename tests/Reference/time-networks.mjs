// Times EPANET's engine on the trees of networks.mjs: microseconds for one balance, the best of many rounds, two ways:
// solveH, which is the whole call, and initH with runH on a system that was opened once.
// Run it after `npm ci`, with the beginning of a tree's name or none for all; see README.md.
import { networks, opened } from "./networks.mjs";

function best(act) {
  for (let i = 0; i < 2000; i++) act();
  let least = Infinity;
  for (let round = 0; round < 40; round++) {
    const before = process.hrtime.bigint();
    for (let i = 0; i < 200; i++) act();
    least = Math.min(least, Number(process.hrtime.bigint() - before) / 200 / 1000);
  }
  return least.toFixed(2);
}

for (const net of networks.filter((n) => n.name.startsWith(process.argv[2] ?? ""))) {
  const model = await opened(net);
  const whole = best(() => model.solveH());
  model.openH();
  const keptOpen = best(() => {
    model.initH(10); // 10 is EN_INITFLOW: every flow starts afresh
    model.runH();
  });
  model.closeH();
  model.close();
  console.log(`${net.name}\t${whole}\t${keptOpen}`);
}
