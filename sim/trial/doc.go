// Package trial runs a bare column of soil under given boundary conditions: no
// weather, no crop, no snow. It serves to set a textbook figure beside the code
// that a comparison runs, with frost and salt where they are asked for.
//
// A case is read from a file of keys (see Keys) or built in code; Run carries it
// through and hands over the state at each output time. Metres, seconds, degrees
// C; depth and flux positive down.
package trial
