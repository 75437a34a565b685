using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.Clinic.DayLists;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Tests.DayLists;

public sealed class DayListWatchTests : IDisposable
{
    private readonly Support.Clinic clinic = new();
    private readonly string folder = Directory.CreateTempSubdirectory("day-lists-").FullName;
    private readonly DayListWatch watch;

    public DayListWatchTests() =>
        watch = new DayListWatch(
            clinic.Records,
            new DayListWatchOptions { Folder = folder },
            clinic.Time,
            NullLogger<DayListWatch>.Instance
        );

    [Fact]
    public async Task A_file_is_taken_once_it_grows_no_more()
    {
        Write("list.csv", "patient\nQ-10");
        await LookAsync();
        Write("list.csv", "patient\nQ-1001\nQ-1002");
        await LookAsync();
        Assert.Empty(Lists());

        await LookAsync();

        Assert.Equal(["Q-1001", "Q-1002"], Lists().Single().Items.Select(item => item.Patient.Value));
        Assert.Equal(["list.csv"], Names("taken"));
        Assert.Empty(Names("."));
        Assert.Equal(new DateOnly(2026, 3, 2), Lists().Single().Date);
        Assert.Equal("day-list-folder", Lists().Single().Who.Value);
    }

    [Fact]
    public async Task The_day_may_stand_in_the_files_name()
    {
        Write("quay 2026-03-05 final.csv", "patient\nQ-1001");

        await LookAsync(2);

        Assert.Equal(new DateOnly(2026, 3, 5), Lists().Single().Date);
    }

    [Fact]
    public async Task A_file_with_faults_is_put_aside_with_a_report_beside_it()
    {
        Write("list.csv", "patient,time\nQ-1001,soon");

        await LookAsync(2);

        Assert.Empty(Lists());
        Assert.Equal(["list.csv", "list.csv.txt"], Names("refused"));
        var report = await File.ReadAllTextAsync(Path.Combine(folder, "refused", "list.csv.txt"));
        Assert.Contains("Nothing of 'list.csv' was taken", report, StringComparison.Ordinal);
        Assert.Contains("Line 2, column 'time': 'soon' is no time.", report, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_file_again_does_nothing_and_overwrites_nothing()
    {
        Write("list.csv", "patient\nQ-1001");
        await LookAsync(2);
        Write("list.csv", "patient\nQ-1001");
        await LookAsync(2);

        Assert.Single(Lists());
        Assert.Equal(["list 20260302-080000.csv", "list.csv"], Names("taken"));
    }

    [Fact]
    public async Task Other_files_are_left_alone()
    {
        Write(".list.csv", "patient\nQ-1001");
        Write("~list.csv", "patient\nQ-1001");
        Write("list.csv.part", "patient\nQ-1001");

        await LookAsync(3);

        Assert.Equal([".list.csv", "list.csv.part", "~list.csv"], Names("."));
    }

    [Fact]
    public async Task What_cannot_be_taken_now_stays_until_it_can()
    {
        Write("list.csv", "patient\nQ-1001");
        clinic.House.ExamsWaitFor = "The exams are being made anew.";
        await LookAsync(3);
        Assert.Equal(["list.csv"], Names("."));

        clinic.House.ExamsWaitFor = null;
        await LookAsync();

        Assert.Equal(["list.csv"], Names("taken"));
        Assert.Single(Lists());
    }

    [Fact]
    public async Task A_folder_that_is_not_there_ends_nothing()
    {
        Directory.Delete(folder);
        await LookAsync(2);
        Directory.CreateDirectory(folder);
        Write("list.csv", "patient\nQ-1001");

        await LookAsync(2);

        Assert.Single(Lists());
    }

    [Fact]
    public async Task It_looks_by_the_clock_until_it_is_stopped()
    {
        Write("list.csv", "patient\nQ-1001");
        using var stop = new CancellationTokenSource();
        var running = watch.RunAsync(stop.Token);

        for (var n = 0; n < 3000 && Names("taken").Count == 0; n++)
        {
            clinic.Time.Advance(TimeSpan.FromSeconds(5));
            await Task.Delay(10);
        }

        await stop.CancelAsync();
        await running;
        Assert.Equal(["list.csv"], Names("taken"));
    }

    public void Dispose()
    {
        clinic.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private IEnumerable<DayListEntered> Lists() => clinic.House.Journal.OfType<DayListEntered>();

    private void Write(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);

    private List<string> Names(string below)
    {
        var path = Path.Combine(folder, below);
        return Directory.Exists(path)
            ? [.. Directory.GetFiles(path).Select(file => Path.GetFileName(file)!).Order(StringComparer.Ordinal)]
            : [];
    }

    private async Task LookAsync(int times = 1)
    {
        for (var n = 0; n < times; n++)
        {
            await watch.LookAsync(default);
        }
    }
}
