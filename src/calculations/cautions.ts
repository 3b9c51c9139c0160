/** Cautions stand where the hand is; they defer to codes, the vehicle's maker and licensed practice. */
export const cautions = {
  ports:
    "Service ports: liquid refrigerant freezes skin and eyes. Wear goggles and gloves, and keep ignition sources away when the content may burn.",
  identity:
    "Pressure alone does not identify a refrigerant. Check identity before a recovery machine is connected; a mixture or a flammable product can damage it and hurt people.",
  charge: "Static pressure does not measure the charge: weigh it.",
  rules:
    "Follow local law, the vehicle maker's instructions and licensed practice; nothing here permits releasing refrigerant.",
  leakTest:
    "Never raise pressure or test for leaks with air: refrigerant mixed with air under pressure can burn.",
  running:
    "Engine running: keep hands, sleeves and hoses away from belts and fans, and never open the high-side valve to a can.",
  hotAndHigh:
    "Running: the discharge line burns skin and the high side holds 10 to 25 bar. Clamp sensors on before the start, and read gauges at arm's length.",
  equation:
    "Figures of the fluid or blend itself. Oil, air, moisture or another refrigerant in a system shift them.",
  coldWater:
    "Water below 4 °C contracts on warming: two states may share this pair there, and one of them is given.",
  flammable:
    "Burns: keep ignition sources away, ventilate low down where heavy vapour gathers, use a detector rated for the gas, and ask the authority whether it may be in a vehicle at all.",
  poisonInFlame:
    "Fluorinated and chlorinated fluids give hydrogen fluoride, hydrogen chloride and other poisons in a flame or on glowing metal, those that do not burn included.",
  oxygen:
    "Oxygen or air inside a system or cylinder with refrigerant and oil can explode: do not compress it, keep heat away, and have it recovered by licensed people.",
  editions:
    "Figures of different report editions do not compare. Quotas and laws name their edition: in the US and EU mostly AR4.",
  full: "More than 80 % liquid by volume: warming fills the vessel, and then each kelvin adds several bar. Stop at 80 % counted at 25 °C, or warmer where it is filled warmer.",
  liquidCharge:
    "A blend with glide is charged as liquid: vapour taken from the top changes what comes out and what is left.",
  vacuumTest:
    "A vacuum hold finds gross leaks and water only: it loads seals inwards by 1 bar, service loads them outwards by 5 to 20 bar.",
  flameTest:
    "Never test an unknown gas with a flame or by smell, and release none of it to find out what it is.",
  cylinder:
    "Use only a refillable cylinder made for recovery, in date, evacuated before its first use and marked for this refrigerant's pressure; never fill a disposable one. Weigh while it fills: a vessel that is full of liquid bursts when it warms.",
  flammableCylinder:
    "This may burn: the cylinder, the recovery machine and the hoses must be made for flammable gas, and the place aired and free of ignition sources.",
  weakCylinder:
    "The marked service pressure is too low for this refrigerant at 55 °C: do not fill this cylinder.",
  outgassing:
    "Gas leaves the oil after the pump stops: wait some minutes, read again, and recover again if the pressure has risen. Never heat a part with a flame.",
  canHighSide: "Never open the high-side valve to a can while the engine runs: the can may burst.",
  slug: "Let liquid into the low side of a running compressor only throttled, so that it boils on the way: liquid breaks valves.",
  notOnLabel:
    "A mass for a refrigerant that is not on the vehicle's label is a model's figure, not permission to charge it. The vehicle's maker and local law decide what may go in.",
} as const;
