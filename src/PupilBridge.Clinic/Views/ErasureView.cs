namespace PupilBridge.Clinic.Views;

/// <summary>That what identified a patient was erased.</summary>
/// <param name="At">When, in UTC.</param>
/// <param name="Who">Who did it.</param>
/// <param name="OrderedBy">Who ordered it.</param>
/// <param name="Reason">Why.</param>
/// <param name="Sequence">The entry of the journal that says so.</param>
/// <param name="Words">The same for a person.</param>
public sealed record ErasureView(
    DateTimeOffset At,
    string Who,
    string OrderedBy,
    string Reason,
    long Sequence,
    string Words
);
