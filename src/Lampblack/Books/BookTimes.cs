namespace Lampblack.Books;

/// <summary>How long things take an unhurried maker who has done them once, in minutes. From memory, no source; waiting is told apart.</summary>
internal static class BookTimes
{
    public const double GatherLine = 1;
    public const double CaliperPart = 1.5;
    public const double WhichWay = 10;
    public const double Trial = 20;
    public const double PrintSheet = 10;
    public const double ShopVisit = 45;
    public const double LookAtSheet = 5;
    public const double DarkLook = 5;
    public const double RubAndFold = 10;
    public const double GluePanel = 20;
    public const double GlueDries = 60;
    public const double SnapCut = 5;
    public const double SawCut = 10;
    public const double FileCorners = 10;
    public const double OpenPaper = 1;
    public const double DrillOnce = 1;
    public const double FileHole = 15;
    public const double SawHole = 8;
    public const double StickTemplate = 8;
    public const double MeasurePanel = 10;
    public const double BlackenPanel = 10;
    public const double CoatPanel = 10;
    public const double CoatDries = 120;
    public const double PaintDries = 120;
    public const double WoodGlueDries = 60;
    public const double FitPart = 2.5;
    public const double BuildBox = 45;
    public const double FoldCell = 12;
    public const double PlaceLamp = 2;
    public const double LayLampBoard = 10;
    public const double House = 15;
    public const double Channel = 20;
    public const double FirstLight = 10;
    public const double Wire = 2.5;
    public const double Between = 1.5;
    public const double Contact = 1.5;
    public const double Board = 20;
    public const double Test = 0.5;
    public const double PutChip = 2;
    public const double Flash = 10;
    public const double Call = 0.5;
    public const double JoinPlugs = 10;
    public const double LookLit = 10;
    public const double Close = 15;
    public const double Keep = 5;
}
