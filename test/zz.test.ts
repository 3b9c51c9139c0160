import {test} from "vitest";
import {createRandom} from "../src/numerics/index.ts";
import {faultNames} from "../src/evidence/faults/hypotheses.ts";
import {hiddenFault} from "./faults/hidden-fault.ts";
import {score,type Score} from "./faults/score.ts";
test("t",()=>{
 const random=createRandom(5); const N=Number(process.env.N??60);
 const all:Score[]=[];
 const kinds=faultNames.filter(n=>n!=="none");
 for(let i=0;i<N;i++){ all.push(score(hiddenFault(random,kinds[i%kinds.length]!,i%4>1))); }
 for(const d of [0,2,3,4,5]){const s=all.filter(a=>a.distance>=d); console.log("d>=",d,s.length,"leadfault",(s.filter(a=>a.leadingFault===a.truth).length/s.length).toFixed(3),"leading",(s.filter(a=>a.leading===a.truth).length/s.length).toFixed(3),"named",(s.filter(a=>a.named===a.truth).length/s.length).toFixed(3),"namedwrong",s.filter(a=>a.named!==a.truth&&a.named!=="undecided"&&a.named!=="healthy").length);}
 for(const k of kinds){const s=all.filter(a=>a.truth===k); const q=s.filter(a=>a.distance>=3); console.log(k,s.length,q.length,"lead",q.filter(a=>a.leadingFault===k).length,"cov",s.filter(a=>a.covered).length,"wrong:",q.filter(a=>a.leadingFault!==k).map(a=>a.leadingFault+" "+a.distance.toFixed(1)).join(", "));}
 const ms=all.map(a=>a.ms).sort((a,b)=>a-b); console.log("ms median",ms[ms.length>>1],"p95",ms[Math.floor(ms.length*.95)],"max",ms.at(-1));
 
 
},600000);
