// Writes the check tables into the folder named on the command line.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { airTable } from "./air.mjs";
import { networks, solved } from "./networks.mjs";

const folder = process.argv[2];
if (!folder) throw new Error("Name the folder to write the tables into.");
mkdirSync(folder, { recursive: true });

const trees = [];
for (const net of networks) trees.push(await solved(net));
writeFileSync(join(folder, "networks.json"), JSON.stringify(trees, null, 1) + "\n");
writeFileSync(join(folder, "air.csv"), airTable());
