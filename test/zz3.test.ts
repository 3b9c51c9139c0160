import {test} from "vitest";
import {createRandom} from "../src/numerics/index.ts";
import {hiddenFault} from "./faults/hidden-fault.ts";
import {modelOf} from "../src/evidence/faults/diagnose.ts";
import {evidenceOf} from "../src/evidence/faults/evidence.ts";
import {expectedReadings} from "../src/evidence/faults/posterior.ts";
import {squaredDistance,logDensity} from "../src/inference/index.ts";
import {saturationOf,runVehicle} from "../src/vehicle/index.ts";
import {faultQuantities} from "../src/evidence/faults/quantities.ts";
test("t",()=>{
 const random=createRandom(77); 
 for(let i=0;i<150;i++){const h=hiddenFault(random,"none",i%2===1); if(i<90)continue;
  const label=saturationOf(h.healthy.fill.composition) as any; const m=modelOf(h,label)!; const ev=evidenceOf(h.readings,m.centre,m.reader);
  const e=expectedReadings(m.sound,ev); const d2=squaredDistance(e,ev.y); 
  if(d2>4.5*ev.y.length/1.5) {console.log(i,h.healthy.vehicle.preset,h.healthy.conditions.speed,d2.toFixed(1),ev.y.length,logDensity(e,ev.y).toFixed(1)); const n=ev.y.length;
   for(let a=0;a<n;a++)console.log("  ",faultQuantities[ev.picks[a]],(ev.y[a]-e.mean[a]).toPrecision(3),"sd",Math.sqrt(e.covariance[a*n+a]).toPrecision(3),"corr",Array.from({length:n},(_,b)=>(e.covariance[a*n+b]/Math.sqrt(e.covariance[a*n+a]*e.covariance[b*n+b])).toFixed(2)).join(" "));
   for(const b of m.branches){let best=-1e9,s=0,bd=0;for(const p of b.points){if(!p.expected)continue;const f=expectedReadings(p.expected,ev);const l=logDensity(f,ev.y);if(l>best){best=l;s=p.severity;bd=squaredDistance(f,ev.y)}}console.log("    ",b.branch.fault,best.toFixed(1),"at",s,"d2",bd.toFixed(1));}
  }
 }
},600000);
