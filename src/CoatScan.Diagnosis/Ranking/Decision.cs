namespace CoatScan.Diagnosis;

/// <summary>What a reader decides by a condition: two conditions of equal decisions need not be told apart.</summary>
/// <param name="Family">Family of the condition.</param>
/// <param name="FirstStep">Operation of its first remedy step.</param>
/// <param name="Party">The party that most probably answers for it, by the evidence at hand.</param>
internal readonly record struct Decision(string Family, string FirstStep, string Party);
