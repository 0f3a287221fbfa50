// Package erosion judges how far a drainage has cut into the land and how fast it may go on.
package erosion
