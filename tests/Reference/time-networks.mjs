// Times EPANET's engine on the trees of networks.mjs: microseconds for one balance, the best of many rounds.
// Run it after `npm ci`, with the name or the beginning of the name of a tree; see README.md.
import { networks, opened } from "./networks.mjs";

const wanted = process.argv[2] ?? "three";
for (const net of networks.filter((n) => n.name.startsWith(wanted))) {
  const model = await opened(net);
  model.openH();
  const balance = () => {
    model.initH(10); // 10 is EN_INITFLOW: start afresh each time
    model.runH();
  };
  for (let i = 0; i < 2000; i++) balance();
  let best = Infinity;
  for (let round = 0; round < 40; round++) {
    const before = process.hrtime.bigint();
    for (let i = 0; i < 200; i++) balance();
    best = Math.min(best, Number(process.hrtime.bigint() - before) / 200 / 1000);
  }
  console.log(`${net.name}\t${best.toFixed(2)}`);
  model.closeH();
  model.close();
}
