using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Erasing;

/// <summary>An erasure as a list of them names it. It says which keys and exams, and not who the patient was.</summary>
/// <param name="Sequence">Its place in the journal in which it was ordered.</param>
/// <param name="Order">The journal's entry.</param>
public sealed record ListedErasure(long Sequence, PatientErased Order);
