using System.Text.Json;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Tests.Fhir;

/// <summary>Whatever word a record can have where a code of ours is made of it, there is that code.</summary>
public sealed class RecordWordsTests
{
    [Fact]
    public void Every_word_of_a_record_that_becomes_a_code_has_one()
    {
        string[] words =
        [
            .. Words<SwingState>(SwingState.NotExamined, SwingState.CouldNotSee, SwingState.Seen),
            "defect-seen",
            .. Words<SwingFinding>(SwingFinding.CouldNotSee),
            .. Words<PupilShape>(PupilShape.CouldNotSee),
            .. Words<PupilsObserved>(),
            .. Words<CaptureManner>(),
            .. Words<RoomLight>(),
            .. Words<Fixation>(),
            .. Words<CriterionVerdict>(CriterionVerdict.NotExamined),
        ];
        Assert.Equal([], words.Where(word => !LocalCodes.IsKnown(word)));
        Assert.True(words.Length > 25);
    }

    private static IEnumerable<string> Words<T>(params T[] without)
        where T : struct, Enum =>
        Enum.GetValues<T>().Except(without).Select(v => JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()));
}
