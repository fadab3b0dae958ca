// An app of somebody else, in TypeScript: three briefs sent with the generated types. Prints what it read, as JSON.
// Arguments: the address of the service, then the files of a brief with a plan, one with a conflict, and a refused one.
import { readFileSync } from "node:fs";
import createClient from "openapi-fetch";
import type { components, paths } from "./api.js";

type Brief = components["schemas"]["BriefBody"];

const [address = "", ...files] = process.argv.slice(2);
// A good answer may be a page or a table as well; this app wants JSON.
const client = createClient<paths, "application/json" | "application/problem+json">({ baseUrl: address });
const answers = files.map((file) => {
  const body = JSON.parse(readFileSync(file, "utf8")) as Brief;
  return client.POST("/v1/plans", { body });
});
const [plan, conflict, refused] = await Promise.all(answers);
if (plan?.data?.outcome !== "plan") throw new Error("there is a plan");
if (conflict?.data?.outcome !== "conflict") throw new Error("there is a conflict");
if (refused?.error === undefined) throw new Error("there is something to mend");
// The outcome tells the answers apart: each field below is of one of them only.
const read = {
  grams: Object.fromEntries(plan.data.quantities.map((each) => [each.name, each.grams])),
  kcal: plan.data.portion.energy_kcal,
  in_conflict: conflict.data.members.map((each) => [each.kind, each.text]),
  to_mend: refused.error.problems.map((each) => [each.pointer, each.code]),
};
console.log(JSON.stringify(read));
