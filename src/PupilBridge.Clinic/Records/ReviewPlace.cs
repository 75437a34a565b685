using PupilBridge.Clinic.Text;
using PupilBridge.ExamLog;

namespace PupilBridge.Clinic.Records;

/// <summary>A place on the review list: urgent before the others, and the oldest first. Its text is what a page says to go on from.</summary>
/// <param name="IsUrgent">Whether a clinician should see the patient before drops.</param>
/// <param name="At">When the exam opened, and which it is.</param>
internal readonly record struct ReviewPlace(bool IsUrgent, ExamPlace At) : IComparable<ReviewPlace>
{
    /// <summary>Reads what <see cref="ToString"/> wrote.</summary>
    /// <exception cref="EntryProblemException">It is something else.</exception>
    public static ReviewPlace Parse(string text)
    {
        var turn = text.Length > 2 && text[1] == ':' ? (ReviewTurn)(text[0] - '0') : ReviewTurn.NotWaiting;
        try
        {
            return turn is ReviewTurn.First or ReviewTurn.Waiting
                ? new ReviewPlace(turn == ReviewTurn.First, ExamPlace.Parse(text[2..]))
                : throw new ArgumentException("It names no turn.", nameof(text));
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(ClinicText.Records.Get("Review.NoPlace", text), problem);
        }
    }

    /// <inheritdoc/>
    public int CompareTo(ReviewPlace other) =>
        IsUrgent == other.IsUrgent ? At.CompareTo(other.At)
        : IsUrgent ? -1
        : 1;

    /// <summary>The text; the exam log reads it as well.</summary>
    public override string ToString() => $"{(int)(IsUrgent ? ReviewTurn.First : ReviewTurn.Waiting)}:{At}";
}
