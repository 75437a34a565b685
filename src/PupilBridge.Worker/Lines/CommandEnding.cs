using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Lines;

/// <summary>How a command to an instrument ended.</summary>
/// <param name="Number">The command's number.</param>
/// <param name="Outcome">How it ended.</param>
/// <param name="Reason">Why, for a person; may be empty.</param>
public sealed record CommandEnding(uint Number, CommandOutcome Outcome, string Reason);
