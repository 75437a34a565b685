namespace PupilBridge.Clinic.Views;

/// <summary>The erasure of a patient as one administrator proposed it, before another one confirms it.</summary>
/// <param name="Id">Its name, drawn at random; it says nothing of the patient.</param>
/// <param name="Patient">The patient's number.</param>
/// <param name="OrderedBy">Who ordered the erasure.</param>
/// <param name="Reason">Why.</param>
/// <param name="By">Who proposed it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Until">When it lapses, in UTC.</param>
public sealed record ProposalView(
    string Id,
    string Patient,
    string OrderedBy,
    string Reason,
    string By,
    DateTimeOffset At,
    DateTimeOffset Until
);

/// <summary>What became of something that was done about a proposal.</summary>
/// <param name="IsDone">Whether it was done.</param>
/// <param name="Words">What the person should know, or what is in the way and what to do next.</param>
public sealed record ProposalOutcome(bool IsDone, string Words);
