import type { Hand } from "./hand.ts";

/** The question, the vehicle, the instruments, the product and the vessels of the invented trial. */
export async function setUp(hand: Hand): Promise<void> {
  await hand.press("New trial", "What is the question?");
  await hand.type("Name of the trial", "Shuttle against product B");
  await hand.type(
    "The question, fixed before the first reading",
    "Is product B as cold as the label refrigerant at the vent within 1 K?",
  );
  await hand.type("Smallest vent difference that matters", "1");
  await hand.type("Altitude", "640");
  await hand.page.getByLabel("Altitude: unit").selectOption("m");
  await hand.press("Start the trial", "Plan");
  await vehicle(hand);
  for (const common of [
    "Low-side gauge, class 1.6",
    "High-side gauge, class 1.6",
    "Thermocouple type K, class 1",
    "Thermistor vacuum gauge",
    "Shop scale, 2 g steps",
    "Hygrometer, ± 3 %",
  ]) {
    await hand.press("Add an instrument", "An instrument");
    await hand.press(common);
    await hand.press("List the instrument", "Plan");
  }
  await hand.press("Add a product", "A product");
  await hand.type("Product", "Product B");
  await hand.type("Net mass on the label", "240", "g");
  await hand.type("Claims, one a line", "Equals 680 g of R134a");
  await hand.tick("The can carries a flammable mark");
  await hand.press("List the product", "Plan");
  await vessels(hand);
}

async function vehicle(hand: Hand): Promise<void> {
  await hand.press("Describe the vehicle", "The vehicle");
  await hand.type("Vehicle", "Nine-seat shuttle");
  await hand.pick("Refrigerant on the label", "R134a");
  await hand.type("Charge on the label", "0,62", "kg");
  await hand.pick("Metering device", "Expansion valve");
  await hand.pick("Compressor", "Variable");
  await hand.type("Cabin volume", "4.1", "m3");
  await hand.press("Save the vehicle", "Plan");
}

async function cylinder(hand: Hand, name: string, tare: string): Promise<void> {
  await hand.press("Add a vessel", "A vessel");
  await hand.type("Vessel", name);
  await hand.pick("It is a", "Recovery cylinder");
  await hand.type("Tare: its mass when empty", tare, "kg");
  await hand.type("Water capacity", "11.9", "kg");
  await hand.type("Rated pressure", "400", "psig");
}

async function vessels(hand: Hand): Promise<void> {
  await cylinder(hand, "R1", "6.82");
  await hand.tick("It holds refrigerant now");
  await hand.pick("What it holds", "R134a (label)");
  await hand.type("Net mass inside", "2.140", "kg");
  await hand.pick("How do you know?", "Weighed");
  await hand.press("List the vessel", "Plan");
  await cylinder(hand, "X7", "6.41");
  await hand.tick("Its maker rates it for flammable refrigerant");
  await hand.press("List the vessel", "Plan");
  await hand.press("Add a vessel", "A vessel");
  await hand.type("Vessel", "Can 1");
  await hand.pick("It is a", "Can");
  await hand.tick("It holds refrigerant now");
  await hand.pick("What it holds", "Product B");
  await hand.type("Net mass inside", "240", "g");
  await hand.pick("How do you know?", "Declared");
  await hand.press("List the vessel", "Plan");
}
