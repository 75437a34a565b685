using System.Text.Json;
using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Tests.People;

/// <summary>One entry of each kind that there is, so that a new kind cannot be forgotten.</summary>
internal static class EveryEntry
{
    public static IReadOnlyList<DeskEntry> By(string who) =>
        [
            .. typeof(DeskEntry)
                .Assembly.GetTypes()
                .Where(type => type.IsSubclassOf(typeof(DeskEntry)) && !type.IsAbstract)
                .Select(type => Make(type, who)),
        ];

    public static DeskEntry Note(string who) => Make(typeof(NoteEntry), who);

    public static DeskEntry Signing(string who) => Make(typeof(SignEntry), who);

    private static DeskEntry Make(Type type, string who) =>
        // A name that the type does not have is ignored, so one text fits all kinds but for those that use a name otherwise.
        (DeskEntry)
            JsonSerializer.Deserialize(
                $$"""
                {"entryId":"00112233445566778899aabbccddeeff","who":"{{who}}","at":"2026-03-02T08:00:00Z","programVersion":"0.1.0",
                "exam":1,"patient":"Q-1001","orderedBy":"DPO","instrument":"QA-1","reason":"r","from":3,"light":"dim","fixation":"far","eye":"OD",
                "conditions":{{(type == typeof(BeginRunEntry) ? "\"dry\"" : "[\"drops\"]")}},"judgement":"direct OD 3","text":"t","withdrawn":"x","steps":["near"],
                "beforeEye":"OD","logUnits":0.3,"seen":["alike"],"grade":"I","seenDigest":"00","day":"2026-03-02","lines":[],"source":"today.csv","kept":"Q-1001","merged":"Q-1002","version":1,"decision":"retry",
                "run":1,"reading":2,"isSetAside":true,"isFinished":true,"kind":"timing","rightLux":[],"leftLux":[],"stepLux":1{{Own(
                    type
                )}}}
                """,
                type,
                ClinicJson.Default
            )!;

    private static string Own(Type type) =>
        type == typeof(DiscSetEntry)
            ? ",\"name\":\"n\",\"certificateNumber\":\"c\",\"certifiedBy\":\"b\",\"certified\":\"2026-01-01\",\"discs\":[]"
            : "";
}
