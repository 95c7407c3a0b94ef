package assess

// ruleIDs are the checks of measures against rules of law, code and trade: how a
// cut and its spoil lie, the ways out of it, how a drain is laid, how thick a
// membrane is. A rule is met or not met: one met to the millimetre hides no
// margin of strength.
var ruleIDs = map[string]bool{batterID: true, "spoil": true, "trench-egress": true, "drain-layout": true, "drain-fall": true, "membrane": true, wingHeightID: true}

// ruleMet tells a rule that is met by its ratio.
func ruleMet(id string, ratio float64) bool { return ruleIDs[id] && ratio <= 1 }
