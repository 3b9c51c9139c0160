import {test} from "vitest";
import {createRandom} from "../src/numerics/index.ts";
import {hiddenFault} from "./faults/hidden-fault.ts";
import {diagnose} from "../src/evidence/faults/diagnose.ts";
test("t",()=>{
 const random=createRandom(77); const N=Number(process.env.N??150);
 const z:Record<string,number[]>={}; let ok=0,lead=0;
 for(let i=0;i<N;i++){const h=hiddenFault(random,"none",i%2===1); const d=diagnose(h); if(d.kind!=="diagnosis")throw new Error();
  const none=d.faults.find(f=>f.name==="none")!;
  for(const s of none.signs)(z[s.quantity+(i%2)]??=[]).push(s.fromHealthy);
  if(d.faults[0]!.name==="none")lead++;
  if(d.named==="healthy")ok++; else console.log(i,h.healthy.vehicle.preset,h.healthy.conditions.speed,d.named,d.suspected,none.probability.toFixed(2),none.signs.map(s=>s.quantity+" "+s.fromHealthy.toFixed(1)).join(","),"signs",Math.max(...d.faults.map(f=>f.independentSigns)));
 }
 console.log("ok",ok/N,"lead",lead/N);
 for(const [k,v] of Object.entries(z))console.log(k,v.length,"mean",(v.reduce((a,b)=>a+b,0)/v.length).toFixed(2),"rms",Math.sqrt(v.reduce((a,b)=>a+b*b,0)/v.length).toFixed(2));
},600000);
