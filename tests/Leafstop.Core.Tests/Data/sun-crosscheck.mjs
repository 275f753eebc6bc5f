// Writes sun-crosscheck.csv: the sun's place by an independent library at 1000 places and times drawn by a fixed rule.
//
//   npm install astronomy-engine@2.1.19
//   node sun-crosscheck.mjs > sun-crosscheck.csv
//
// Airless topocentric altitude and azimuth (true equator and equinox of date, aberration and parallax included). Times are UTC, read as UT1.
import * as Astronomy from "astronomy-engine";

let state = 20261125n;
const draw = () => {
  // Multiplier and increment of a 64-bit linear congruential generator; the top 53 bits make a number in 0..1.
  state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
  return Number(state >> 11n) / 2 ** 53;
};

const first = Date.UTC(1800, 0, 1) / 1000, last = Date.UTC(2101, 0, 1) / 1000;
console.log("utc,lat_deg,lon_deg,elev_m,alt_airless_deg,az_deg");
for (let i = 0; i < 1000; i++) {
  // Latitude by area on three draws of four, and evenly on the fourth so that the poles have their share.
  const seconds = Math.floor(first + draw() * (last - first));
  const u = draw();
  const latitude = i % 4 === 3 ? (180 * u - 90) : Math.asin(2 * u - 1) * 180 / Math.PI;
  const longitude = 360 * draw() - 180, elevation = Math.floor(3000 * draw());
  const lat = Number(latitude.toFixed(4)), lon = Number(longitude.toFixed(4));
  const when = new Date(seconds * 1000);
  const observer = new Astronomy.Observer(lat, lon, elevation);
  const place = Astronomy.Equator(Astronomy.Body.Sun, when, observer, true, true);
  const sky = Astronomy.Horizon(when, observer, place.ra, place.dec, null);
  console.log([when.toISOString().replace(".000Z", "Z"), lat, lon, elevation, sky.altitude.toFixed(5), sky.azimuth.toFixed(5)].join(","));
}
