using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Safekeeping.Restoring;
using PupilBridge.Worker.Erasing;

namespace PupilBridge.Verbs.Backups;

/// <summary>What <c>restore</c> says of erasures that were ordered after the backup: nobody comes back without a word.</summary>
internal static class RestoredErasures
{
    /// <summary>Prints which erasures the restored folder went through again, and up to when such are known here.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="restored">What was restored.</param>
    /// <param name="repeated">The erasures.</param>
    /// <param name="folder">The restored folder.</param>
    public static void Print(Call call, Restored restored, IReadOnlyList<ListedErasure> repeated, string folder)
    {
        foreach (var one in repeated)
        {
            call.Print(
                $"  Erased again, since it was ordered after this backup: a patient, by {one.Order.Who} on {On(one)}, ordered by "
                    + $"{one.Order.OrderedBy} ({one.Order.Reason})."
            );
        }

        if (File.Exists(Path.Combine(folder, ErasureList.ToRepeatFileName)))
        {
            call.Print(
                $"  These erasures wait in {ErasureList.ToRepeatFileName} until the keys are there; the first start enters them into the journal."
            );
        }

        call.Print(
            $"  Erasures that were ordered after {BackupArguments.Moment(restored.Later.KnownUpTo)} are not known here. Whoever was erased later "
                + "is back: look in the clinic's own list of requests, and erase again with 'pupilbridge patients erase' before anybody uses it."
        );
    }

    /// <summary>Whether all later backups could be asked; if not, says which could not.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="restored">What was restored.</param>
    public static bool AreKnown(Call call, Restored restored)
    {
        if (restored.Later.Unread.Count > 0)
        {
            var numbers = string.Join(
                ", ",
                restored.Later.Unread.Select(number => number.ToString(CultureInfo.InvariantCulture))
            );
            call.Remark(
                $"pupilbridge: later backups there cannot be read ({numbers}): erasures that only they know of are not in this."
            );
        }

        if (!restored.Later.IsCourseKnown)
        {
            call.Remark(
                "pupilbridge: the end of the journal in this backup is damaged, so that it cannot be told which later backups are of the same "
                    + "journal: no erasure that was ordered later is in this."
            );
        }

        return restored.Later is { Unread.Count: 0, IsCourseKnown: true };
    }

    /// <summary>An erasure for a program.</summary>
    /// <param name="one">The erasure.</param>
    public static object Document(ListedErasure one) =>
        new
        {
            one.Sequence,
            Who = one.Order.Who.Value,
            At = one.Order.At.ToDateTimeOffset().UtcDateTime,
            one.Order.OrderedBy,
            one.Order.Reason,
            Exams = one.Order.Exams.Select(exam => exam.Value),
        };

    private static string On(ListedErasure one) =>
        one.Order.At.ToDateTimeOffset().UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
