// States of moist air by psychrolib (SI), from -40 to 60 °C, three humidities, three pressures.
import psychrolib from "psychrolib";

export function airTable() {
  psychrolib.SetUnitSystem(psychrolib.SI);
  const lines = ["temperature_c,relative_humidity,pressure_pa,saturation_pa,humidity_ratio,density_kg_m3,enthalpy_j_kg,dew_point_c"];
  for (let c = -40; c <= 60; c += 2.5)
    for (const humidity of [0.1, 0.5, 1])
      for (const pa of [101325, 90000, 75000]) lines.push(line(c, humidity, pa));
  return lines.join("\n") + "\n";
}

function line(c, humidity, pa) {
  const ratio = psychrolib.GetHumRatioFromRelHum(c, humidity, pa);
  return [
    c, humidity, pa, psychrolib.GetSatVapPres(c), ratio, psychrolib.GetMoistAirDensity(c, ratio, pa),
    psychrolib.GetMoistAirEnthalpy(c, ratio), psychrolib.GetTDewPointFromRelHum(c, humidity),
  ].map((value) => String(Number(value.toPrecision(9)))).join(",");
}
