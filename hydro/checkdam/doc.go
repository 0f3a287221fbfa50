// Package checkdam sizes one check dam from numbers a person can tape and level: spacing, notch,
// stone, keys, apron, rock, pond and silt. It knows no grid and no plan.
//
// # Assumptions
// For Size the channel is a prism of one section and slope for the length of a pond; a Valley takes fitted cross-sections, between which all runs straight. Water crosses the notch at critical depth, as over a
// broad crest; seepage through the rock is ignored, so that real heads are lower. The pond is
// level and its inflow slow. The bed under the body is taken as level.
//
// # Units
// SI. Lengths in metres, areas in m², volumes in m³, flow in m³/s; slope as rise over run; side and
// face slopes as horizontal run a metre of height. NaN stands for what is not known or not computed.
//
// # Limits
// Effective height up to RefusedHeightM; above that an engineer designs the dam. Stone sizes hold inside
// the range of each method only, which is said beside each.
//
// # Sources
// Keys of hydro.Source: CVCSwale, Desta2005, EPACheckDam, Geyik1986, Heede1976, HeedeMufich1973, HEC11,
// IndianaCheckDam, Isbash1936, Jepson1939, Leopold1992, MPCASwale, Nichols2016, NRCSTechNote40, Polyakov2014, Robinson1998, SponholtzAnderson2010, Veronese1937,
// VirginiaCheckDam.
package checkdam
