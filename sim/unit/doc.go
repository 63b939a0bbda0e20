// Package unit turns a text such as "3.5 ft" into SI and SI into the measures
// that a reader is used to, SI or US customary.
//
// Every unit is defined by its exact factor: the inch, pound and acre of the
// international yard and pound agreement of 1959 (1 in = 25.4 mm, 1 lb =
// 0.45359237 kg, 1 ac = 43 560 international ft2 = 0.40468564224 ha), as tabled
// in NIST Handbook 44, appendix C.
//
// Inside the program everything is SI, with days and hours where the trade has
// them; other units are met only where text comes in or goes out.
package unit
