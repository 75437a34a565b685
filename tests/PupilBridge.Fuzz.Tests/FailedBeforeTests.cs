using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;

namespace PupilBridge.Fuzz.Tests;

/// <summary>Every input that ever failed is given again; each has a text beside it that says what it broke.</summary>
public sealed class FailedBeforeTests
{
    [Fact]
    public void Every_input_that_failed_once_passes_now()
    {
        foreach (var info in TargetList.All)
        {
            var files = FailedBefore.Files(info.Name).ToList();
            if (files.Count == 0)
                continue;
            var target = info.Make();
            foreach (var file in files)
            {
                var failure = Minimiser.Fails(target, File.ReadAllBytes(file));
                Assert.True(failure is null, $"{file} fails again: {failure}");
            }

            (target as IDisposable)?.Dispose();
        }
    }

    [Fact]
    public void Each_says_what_it_broke_and_belongs_to_a_target()
    {
        foreach (var file in Directory.EnumerateFiles(FailedBefore.Folder, "*.input", SearchOption.AllDirectories))
        {
            Assert.NotNull(TargetList.Find(Path.GetFileName(Path.GetDirectoryName(file)!)));
            var said = Path.ChangeExtension(file, ".txt");
            Assert.True(
                File.Exists(said) && File.ReadAllText(said).Trim().Length > 20,
                $"{said} is to say what it broke."
            );
        }
    }
}
