// Units in types: no bare double crosses the public border without its unit.
//
//   Celsius night = to_celsius(Fahrenheit{24});      // -4.444...
//   Metres crown  = to_metres(Feet{12});             // 3.6576
//
// Everything inside is metric; people see their own units, converted at the edge.
#pragma once

namespace tenwinters {

struct Celsius { double degrees = 0; };
struct Fahrenheit { double degrees = 0; };
struct Metres { double metres = 0; };
struct Feet { double feet = 0; };
struct Litres { double litres = 0; };
struct Gallons { double gallons = 0; };  // US liquid

constexpr Celsius to_celsius(Fahrenheit f) { return {(f.degrees - 32.0) * 5.0 / 9.0}; }
constexpr Fahrenheit to_fahrenheit(Celsius c) { return {c.degrees * 9.0 / 5.0 + 32.0}; }
constexpr Metres to_metres(Feet f) { return {f.feet * 0.3048}; }
constexpr Feet to_feet(Metres m) { return {m.metres / 0.3048}; }
constexpr Litres to_litres(Gallons g) { return {g.gallons * 3.785411784}; }
constexpr Gallons to_gallons(Litres l) { return {l.litres / 3.785411784}; }

}  // namespace tenwinters
