using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Voyage.People;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// What was told to be erased is gone, whatever befell the machine afterwards; and nothing else is. Held against what people ordered and
/// were told, with a reader of its own for keys and sealed pieces.
/// </summary>
/// <param name="world">The voyage, over.</param>
/// <param name="entries">The journal's entries, with what can still be opened in them, by sequence.</param>
/// <param name="pieces">The sealed pieces of each, opened where their keys are left.</param>
/// <param name="keys">The keys that are left.</param>
internal sealed class ErasureAudit(
    VoyageWorld world,
    IReadOnlyDictionary<long, JournalEntry> entries,
    IReadOnlyDictionary<long, IReadOnlyList<SealedPiece>> pieces,
    OwnSubjectKeys keys
)
{
    private readonly List<string> problems = [];
    private readonly HashSet<KeySlot> ordered =
    [
        .. entries.Values.OfType<PatientErased>().SelectMany(order => order.Patients.Concat(order.Texts)),
    ];

    /// <summary>Everything that must not be.</summary>
    public IReadOnlyList<string> Run(string examLogFolder)
    {
        CheckOrders();
        CheckOthers();
        var left = new LeftBehind(world, examLogFolder);
        foreach (var (sequence, of) in pieces)
        {
            foreach (var piece in of.Where(piece => piece.Plain is not null))
                left.Add($"piece {piece.Number} of record {sequence}, opened", piece.Plain!);
        }

        foreach (var order in world.Orders.Orders.Values.Where(order => order.IsDone == true))
            CheckGone(order, left);
        return problems;
    }

    /// <summary>Whether a piece that does not open was ordered to go.</summary>
    public bool WasOrdered(SealedPiece piece) => piece.Keys.Any(ordered.Contains);

    /// <summary>An order that is recorded is carried out, whether or not anybody was told; and stands once in the list beside the journal.</summary>
    private void CheckOrders()
    {
        var path = $"{world.Folder.DataFolder}/erasures.jsonl";
        var listed = world.Disk.Paths.Contains(path)
            ? System.Text.Encoding.UTF8.GetString(world.Disk.Content(path)).Split('\n')
            : [];
        foreach (var (sequence, entry) in entries)
        {
            if (entry is not PatientErased order || world.Rotten.Records.ContainsKey(sequence))
                continue;
            foreach (var slot in order.Patients.Concat(order.Texts))
            {
                if (keys.Read(slot, new byte[ISubjectKeys.KeyBytes]) != KeyState.Destroyed)
                    problems.Add($"record {sequence} orders key {slot} to be destroyed, and it is there");
            }

            // One that a death cut off may stand before the whole one.
            var lines = listed.Count(line =>
                line.StartsWith($"{{\"sequence\":{sequence},", StringComparison.Ordinal)
                && line.EndsWith("\"}", StringComparison.Ordinal)
            );
            if (lines != 1)
                problems.Add($"the erasure at {sequence} stands {lines} times in the list of erasures");
        }

        foreach (var slot in keys.Destroyed().Where(slot => !ordered.Contains(slot)))
            problems.Add($"key {slot} was destroyed, and nobody ordered it");
        foreach (var order in world.Orders.Orders.Values)
        {
            if (order.IsDone == true && order.Entry.Patient.StartsWith("Q-9", StringComparison.Ordinal))
                problems.Add($"{order.Entry.Patient}, whom nobody ever entered, was told to be erased");
        }
    }

    /// <summary>What nobody ordered to be erased can all be read.</summary>
    private void CheckOthers()
    {
        foreach (var (sequence, of) in pieces)
        {
            foreach (var piece in of)
            {
                if (piece.Plain is null && !WasOrdered(piece) && !world.Rotten.Records.ContainsKey(sequence))
                    problems.Add(
                        $"piece {piece.Number} of record {sequence} does not open, and nobody ordered it to be erased"
                    );
            }
        }

        var asked = world.Orders.Orders.Values.SelectMany(order => Numbers(order.Entry.Patient)).ToHashSet();
        foreach (var (given, sequence) in world.People.Recorded.Values)
        {
            if (
                Number(given) is { } number
                && !asked.Contains(number)
                && !asked.Contains(world.Orders.Merged.GetValueOrDefault(number, number))
                && Pieces(sequence).Any(piece => !piece.Keys[0].IsText && piece.Plain is null)
            )
                problems.Add(
                    $"record {sequence} is about {number}, of whom nobody ordered anything, and cannot be read"
                );
        }
    }

    private void CheckGone(ErasureOrder order, LeftBehind left)
    {
        var numbers = Numbers(order.Entry.Patient);
        var at = world.People.Recorded[order.Entry.EntryId].Sequence;
        List<string> secrets = [];
        foreach (var (given, sequence) in world.People.Recorded.Values.Where(told => told.Sequence <= order.Known))
        {
            var isOf = Number(given) is { } number && numbers.Contains(number);
            var isAbout = given is ExamDeskEntry about && IsSurelyOf(about.Exam, numbers);
            foreach (var piece in Pieces(sequence).Where(piece => piece.Plain is not null))
            {
                if (piece.Keys.Any(key => key.IsText) ? isAbout : isOf)
                    problems.Add(
                        $"piece {piece.Number} of {given.GetType().Name} at {sequence} was told to be erased at {at}, and opens"
                    );
            }

            if (isOf && given is PatientEntry patient)
                secrets.Add(patient.Name!);
            if (isAbout && given is NoteEntry note)
                secrets.Add(note.Text);
        }

        // Another person may have the number by now; nobody has the name.
        foreach (var number in numbers.Where(number => !IsBorneAfter(number, order.Known)))
        {
            secrets.Add($"{number}");
            if (keys.Find(number).Any())
                problems.Add($"a key lies there for {number}, who was told to be erased at {at}");
        }

        foreach (var secret in secrets)
        {
            if (left.Find(secret) is { } where)
                problems.Add($"'{secret}' of {order.Entry.Patient}, told to be erased at {at}, can be read in {where}");
        }
    }

    private IReadOnlyList<SealedPiece> Pieces(long sequence) =>
        pieces.TryGetValue(sequence, out var of) && !world.Rotten.Records.ContainsKey(sequence) ? of : [];

    /// <summary>The numbers of the person who was erased under one of them.</summary>
    private HashSet<string> Numbers(string number)
    {
        var merged = world
            .People.Recorded.Values.Select(told => told.Entry)
            .OfType<MergeEntry>()
            .Where(merge => merge.Kept == number)
            .Select(merge => merge.Merged);
        return [number, .. merged];
    }

    /// <summary>Opened for that person, never said to be anybody else's, and never split: whose it is is sure.</summary>
    private bool IsSurelyOf(long exam, HashSet<string> numbers)
    {
        var isOpenedSo = false;
        foreach (var (given, sequence) in world.People.Recorded.Values)
        {
            if (given is OpenExamEntry opened && sequence == exam)
                isOpenedSo = opened.Patient is { } patient && numbers.Contains(patient);
            else if (given is SplitEntry split && split.Exam == exam)
                return false;
            else if (
                given is AttachEntry or MoveEntry
                && ((ExamDeskEntry)given).Exam == exam
                && !numbers.Contains(Number(given)!)
            )
                return false;
        }

        return isOpenedSo;
    }

    private bool IsBorneAfter(string number, long known) =>
        world.People.Refused.Values.Any(given => Number(given) == number)
        || world.People.Recorded.Values.Any(told => told.Sequence > known && Number(told.Entry) == number)
        || world.People.Recorded.Values.Any(told =>
            told.Sequence > known && told.Entry is MergeEntry merge && (merge.Merged == number || merge.Kept == number)
        );

    private static string? Number(DeskEntry given) =>
        given switch
        {
            PatientEntry entered => entered.Patient,
            OpenExamEntry opened => opened.Patient,
            AttachEntry attached => attached.Patient,
            MoveEntry moved => moved.Patient,
            _ => null,
        };
}
