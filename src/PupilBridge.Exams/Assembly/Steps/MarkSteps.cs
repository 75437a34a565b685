using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// Captures with mark keys: the edges as marked, in either order. A pair that is complete is used up: to correct one edge,
/// both are marked anew, so that an old edge never meets a new one.
/// </summary>
internal static class MarkSteps
{
    public static void Marked(Workspace work, Happening happening, ExamId? exam)
    {
        var lane = work.Lane(happening.Serial);
        if (exam is not { } id || work.Find(id) is not { } found)
            return;
        var eye = happening.Event.Eye;
        var isNasal = happening.Event.Edge == PupilEdge.Nasal;
        var reading = new EdgeReading(happening.Event.Position, happening.When);
        if (CaptureMaking.WhyNotNow(lane) is { } reason)
        {
            work.Put(found.WithRefused(Half(eye, reason, isNasal, reading, happening.When.Sequence)));
            return;
        }

        var before = lane.Marks[eye] is { } marks && marks.Exam == id ? marks : new MarkedEdges(id, null, null);
        if ((isNasal ? before.Nasal : before.Temporal) is { } again)
            found = found.WithRefused(
                Half(eye, PairRefusalReason.MarkedAgain, isNasal, again, happening.When.Sequence)
            );
        var now = isNasal ? before with { Nasal = reading } : before with { Temporal = reading };
        (found, now) = WithinTime(found, now, eye, isNasal, happening.When);
        if (now is { Nasal: { } nasal, Temporal: { } temporal })
        {
            found = CaptureMaking.With(
                found,
                lane,
                eye,
                CaptureManner.Marked,
                nasal,
                temporal,
                happening.When.Sequence
            );
            now = null;
        }

        work.Put(found);
        work.Put(lane with { Marks = lane.Marks.With(eye, now) });
    }

    /// <summary>Half-made pairs end without a capture.</summary>
    /// <param name="work">The scratch paper.</param>
    /// <param name="serial">The instrument.</param>
    /// <param name="reason">Why.</param>
    /// <param name="by">The entry that ends them.</param>
    /// <param name="only">Only those of this exam; null for all.</param>
    public static void Refuse(
        Workspace work,
        SerialNumber serial,
        PairRefusalReason reason,
        JournalSequence by,
        ExamId? only = null
    )
    {
        var lane = work.Lane(serial);
        foreach (var eye in EyeFacts.Both)
        {
            if (lane.Marks[eye] is not { } marks || (only is not null && marks.Exam != only))
                continue;
            var pair = new RefusedPair(eye, reason, marks.Nasal, marks.Temporal, by);
            work.Change(marks.Exam, exam => exam.WithRefused(pair));
            lane = lane with { Marks = lane.Marks.With(eye, null) };
        }

        work.Put(lane);
    }

    /// <summary>An edge that was marked too long ago goes; the one just marked stays.</summary>
    private static (Exam, MarkedEdges) WithinTime(Exam exam, MarkedEdges marks, Eye eye, bool isNasal, Moment now)
    {
        var other = isNasal ? marks.Temporal : marks.Nasal;
        if (other is null || now.MillisecondsSince(other.When) <= exam.Profile.Captures.PairWithinMilliseconds)
            return (exam, marks);
        var refused = Half(eye, PairRefusalReason.TooLong, !isNasal, other, now.Sequence);
        return (exam.WithRefused(refused), isNasal ? marks with { Temporal = null } : marks with { Nasal = null });
    }

    private static RefusedPair Half(
        Eye eye,
        PairRefusalReason reason,
        bool isNasal,
        EdgeReading reading,
        JournalSequence by
    ) => new(eye, reason, isNasal ? reading : null, isNasal ? null : reading, by);
}
