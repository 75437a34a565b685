using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// The exams that ended lately, as they are now: late events and people's last entries concern these, and are so answered
/// without the exam log. Not safe for several threads.
/// </summary>
internal sealed class RecentExams
{
    /// <summary>More than an instrument's events can still reach back to, for a handful of instruments.</summary>
    internal const int Kept = 64;

    private readonly Dictionary<ExamId, Exam> exams = [];
    private readonly Queue<ExamId> order = [];

    /// <summary>All of them, the first that ended first.</summary>
    public IReadOnlyList<Exam> All => [.. order.Select(id => exams[id])];

    public Exam? Find(ExamId id) => exams.GetValueOrDefault(id);

    public void Clear()
    {
        exams.Clear();
        order.Clear();
    }

    public void Put(Exam exam)
    {
        if (!exams.ContainsKey(exam.Id))
            order.Enqueue(exam.Id);
        exams[exam.Id] = exam;
        if (order.Count > Kept)
            exams.Remove(order.Dequeue());
    }
}
