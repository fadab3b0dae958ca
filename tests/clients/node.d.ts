// The little of Node that call.ts uses; the whole of its types is not needed.
declare module "node:fs" {
  export function readFileSync(path: string, encoding: "utf8"): string;
}
declare const process: { argv: string[] };
